"""What holds for every sentence, whatever the answer."""

import re
from dataclasses import replace
from pathlib import Path

from answers import CABLE, CELLS, CRATE, LONG, SHORT, asked, made, said, within
from hypothesis import given, settings
from hypothesis import strategies as st

from build_tools.catalog.load import load
from build_tools.evidence.terms import LEVELS, Answer, Directions, Gains, Question, RatioInterval
from build_tools.evidence.wording.names import Names

NAMES = Names(load(Path(__file__).parents[2] / "demo" / "catalog"))
TESTS = ["between", "interaction", "within", "ranking", "omnibus", "none"]


@st.composite
def answers(
    draw: st.DrawFn, outcomes: tuple[str, ...] = ("growth", "activation", "strength")
) -> Answer:
    """Any answer that the engine may come to, and some that it may not."""
    outcome = draw(st.sampled_from(outcomes))
    parts = draw(st.booleans())
    question: Question = (
        within(outcome) if parts else asked(outcome, *draw(st.permutations([CRATE, CABLE])))
    )
    if not parts and draw(st.booleans()):
        question = replace(question, relative_to=SHORT)
    row = draw(st.sampled_from(sorted(CELLS)))
    ratio = draw(st.floats(1.0, 4 if outcome == "activation" else 1.5))
    low, high = ratio / draw(st.floats(1, 3)), ratio * draw(st.floats(1, 3))
    estimate = RatioInterval(ratio, low, high) if CELLS[row].get("estimate") else None
    second = draw(st.floats(0.9, 1.4))
    given_gains = draw(st.booleans()) and outcome != "activation"
    studies = draw(st.integers(1, 12))
    optional = {
        "gains": Gains(second * ratio, second, draw(st.booleans())) if given_gains else None,
        "printed": draw(st.sampled_from([None, "14% against 9%", "61% MVIC against 40% MVIC"])),
        "difference": draw(st.sampled_from([None, "difference 3.2 mm, 95% interval 0.4 to 6"])),
        "p": draw(st.sampled_from([None, "p = 0.03", "p < 0.05"])),
        "weeks": None
        if outcome == "activation"
        else draw(st.sampled_from([None, (12, 12), (6, 12)])),
        "groups": draw(st.sampled_from([None, 3])),
        "path": draw(st.sampled_from([None, "direct", "indirect", "direct and indirect"])),
        "tests": draw(st.frozensets(st.sampled_from(TESTS))),
        "directions": draw(
            st.builds(Directions, *(st.integers(0, 2) for _ in range(3)), st.integers(0, 1))
        ),
        "untested": tuple(
            draw(
                st.lists(
                    st.tuples(
                        st.sampled_from(["more", "less", "neither"]), st.sampled_from(TESTS[2:])
                    ),
                    max_size=3,
                )
            )
        ),
        "borrowed": draw(st.booleans()),
        "conflict": draw(st.booleans()),
        "own_test": draw(st.booleans()),
        "measured": draw(st.sampled_from(["part", "together", "whole"])),
        "together": draw(st.sampled_from([(), (SHORT,)])),
        "phase": draw(st.sampled_from([None, "Lifting phase"])),
        "as_tested": draw(st.sampled_from([(), (((CRATE, "Held still for 10 s."),), ())])),
        "strength_test": "Push against a wall, blinded tester"
        if outcome == "strength" and not parts and draw(st.booleans())
        else None,
    }
    answer = made(
        row,
        draw(st.sampled_from(LEVELS)),
        question,
        studies=studies,
        people=draw(st.integers(1, 500)),
    )
    changes = {**optional, "estimate": estimate or answer.estimate}
    if answer.side and draw(st.booleans()):
        changes["side"] = "less"
    if not parts and draw(st.booleans()):
        changes["parts"] = (LONG, SHORT)
    return Answer(**{**vars(answer), **changes})


@settings(max_examples=500)
@given(answers())
def test_sentences_are_well_formed(answer):
    told = said(NAMES, answer)
    assert told.endswith(".")
    assert "  " not in told and ".." not in told and " ," not in told and ",," not in told
    assert ": ." not in told and "()" not in told and "{" not in told and "None" not in told
    assert told.count("(") == told.count(")")
    assert not re.search(r"\b([a-z]+) \1\b", told), told
    assert not re.search(r"\. [a-z]", told), told
    for sentence in re.split(r"\. (?=[A-Z])", told):
        assert sentence.count(": ") <= 1, told


@given(answers(("activation",)))
def test_activation_is_never_told_as_growth(answer):
    told = said(NAMES, answer)
    assert not re.search(
        r"\b(grow|growth|grows|grew|grown|size|larger|smaller|muscle mass|build|builds|gain|gained)\b",
        told,
        re.IGNORECASE,
    ), told
    assert re.search(r"\b([Ww]orks?|[Aa]ctivity)\b", told)


@given(answers())
def test_no_answer_is_hedged_twice(answer):
    told = said(NAMES, answer)
    assert len(re.findall(r"\b(may|probably|could be chance|perhaps|might|likely)\b", told)) <= 1, (
        told
    )
    assert len(re.findall("Do not lean on it yet", told)) <= 1


@given(answers())
def test_certainty_stands_in_the_words(answer):
    told = said(NAMES, answer)
    if answer.finding == "found" and answer.estimate and answer.sized:
        assert ("probably" in told) == (answer.level == "moderate"), told
        assert (" may " in told) == (answer.level == "low"), told
        assert ("Do not lean on it yet" in told) == (answer.level == "very low"), told


@given(answers())
def test_an_answer_with_numbers_tells_how_far_off_they_could_be(answer):
    told = said(NAMES, answer)
    if answer.estimate and answer.sized:
        assert "could be " in told.replace("could be chance", ""), told
    assert not re.search(r"\b(verdict|certainty|shown|proven)\b", told)


@given(answers())
def test_what_came_out_ahead_is_named_first(answer):
    if answer.side is None or answer.question.within:
        return
    told = said(NAMES, answer).lower()
    ahead, behind = answer.question.first, answer.question.second
    if answer.side == "less":
        ahead, behind = behind, ahead
    assert told.index(NAMES.exercise(ahead)) < told.index(NAMES.exercise(behind))
