"""Answers made up for the demo catalog, to compose sentences from."""

from dataclasses import replace

from build_tools.evidence.terms import Answer, Gains, Level, Question, RatioInterval
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.sentences import compose_answer, run_together

LONG, SHORT = "lantern/long-head", "lantern/short-head"
CRATE, CABLE = "crate-curl", "cable-curl"

#: What a row of the table needs of an answer, besides its question.
CELLS = {
    "found": {"finding": "found", "side": "more", "estimate": RatioInterval(1.063, 1.028, 1.1)},
    "trivial": {
        "finding": "found",
        "side": "more",
        "trivial": True,
        "estimate": RatioInterval(1.05, 1.01, 1.1),
    },
    "alike": {"finding": "alike", "side": None, "estimate": RatioInterval(1.004, 0.992, 1.015)},
    "hinted": {"finding": "hinted", "side": "more", "estimate": RatioInterval(1.03, 0.98, 1.08)},
    "one study's own": {
        "finding": "hinted",
        "side": "more",
        "own_test": True,
        "estimate": RatioInterval(1.03, 0.98, 1.08),
    },
    "not alone": {
        "finding": "hinted",
        "side": "more",
        "own_test": True,
        "estimate": RatioInterval(1.063, 1.028, 1.1),
        "measured": "together",
        "together": (SHORT,),
    },
    "not tested": {
        "finding": "hinted",
        "side": "more",
        "estimate": RatioInterval(1.063, 1.028, 1.1),
        "tests": frozenset(["none"]),
    },
    "unclear": {"finding": "unclear", "side": None, "estimate": RatioInterval(1.01, 0.97, 1.05)},
    "opposite": {
        "finding": "unclear",
        "side": None,
        "conflict": True,
        "estimate": RatioInterval(1.01, 0.97, 1.05),
    },
    "direction only": {"finding": "found", "side": "more"},
    "no difference reported": {
        "finding": "unclear",
        "side": None,
        "sized": False,
        "estimate": RatioInterval(1, 1 / 1.06, 1.06),
    },
}


def asked(outcome: str = "growth", first: str = CRATE, second: str = CABLE) -> Question:
    """Two exercises for the long head."""
    return Question(first, second, LONG, outcome)


def within(outcome: str = "growth") -> Question:
    """Two parts within an exercise."""
    return Question(LONG, SHORT, LONG, outcome, within=CRATE)


def made(row: str, level: Level = "low", question: Question | None = None, **given) -> Answer:
    """One study of 28 people over 12 weeks with a test of the two, on a row of the table."""
    question = question or asked()
    base = {
        "studies": 1,
        "people": 28,
        "weeks": (12, 12) if question.outcome in ("growth", "strength") else None,
        "path": "direct",
        "tests": frozenset(["between"]),
    }
    return Answer(question, (question.part,), level=level, **{**base, **CELLS[row], **given})


def swapped(answer: Answer) -> Answer:
    """The same findings asked the other way round, written out for what a swap changes."""
    q, e, g, d = answer.question, answer.estimate, answer.gains, answer.directions
    within = q.within is not None
    return replace(
        answer,
        question=replace(q, first=q.second, second=q.first, part=q.second if within else q.part),
        parts=(q.second,) if within else answer.parts,
        side={"more": "less", "less": "more", None: None}[answer.side],
        estimate=RatioInterval(1 / e.ratio, 1 / e.high, 1 / e.low) if e else None,
        gains=Gains(g.second, g.first, g.pooled) if g else None,
        printed=" against ".join(reversed(answer.printed.split(" against ")))
        if answer.printed
        else None,
        directions=replace(d, more=d.less, less=d.more),
        untested=tuple(
            ({"more": "less", "less": "more"}.get(way, way), test) for way, test in answer.untested
        ),
    )


def said(names: Names, answer: Answer) -> str:
    """An answer as a page says it: the sentence and what follows it."""
    return run_together([compose_answer(names, answer)])
