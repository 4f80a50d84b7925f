"""Claims on muscle length: two mean lengths that a model gives, compared. No study is counted here.

The engine knows no model. Whoever calls it hands in ``Lengths``: the mean share of a
part's own range over one repetition of an exercise (0-1), or a clause on why there
is none. The mean decides, not the longest moment: a muscle that is long only in
passing would otherwise pass for one that works long.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from ...english import listed, upper_first
from ...movement.length.length import percent
from ..terms import Claimed, EvidenceFinding, Question, Side
from ..threshold import below
from ..wording.names import Names
from .conclusions import ClaimFinding, Comparison, Modelled
from .judgement import Judged

#: Exercise and part -> mean share of the part's own range (0-1), or why there is none.
Lengths = Callable[[str, str], float | str]

NO_GROWTH = "Length does not show growth."


def compare(question: Question, lengths: Lengths | None, margin: float) -> Comparison:
    """What the model says on one part; ``margin`` is the share of the own range below which two count as alike."""
    found = _modelled(question, lengths)
    finding, side = _finding(found, margin)
    return Comparison(
        question=question,
        finding=finding,
        side=side,
        rows=(),
        certainty=None,
        sentence="",
        modelled=found,
    )


def judge(claimed: Claimed, comparison: Comparison, margin: float) -> Judged:
    """What the model says of a claim on one part. A model has no interval, so it never only hints."""
    found = comparison.modelled
    assert found is not None  # every comparison of ``compare`` has it
    if found.missing:
        return Judged("not studied", f"There is no length to compare: {found.missing}.")
    alike = (
        f", within the {percent(margin)}% of the range that count as alike"
        if comparison.finding == "alike"
        else ""
    )
    return Judged(
        _held(claimed, comparison),
        f"Mean relative length about {_against(found)} of its own range, by the model{alike}.",
    )


def _held(claimed: Claimed, comparison: Comparison) -> ClaimFinding:
    if comparison.finding == "alike":
        return "found" if claimed == "similar" else "alike"
    return "found" if comparison.side == claimed else "opposite"


def sentence(
    names: Names, comparisons: Sequence[Comparison], taught: Callable[[tuple[str, ...]], str]
) -> str:
    """One sentence for each run of parts with the same answer; ``taught`` says it of parts without a length."""
    told = [
        taught(tuple(c.question.part for c in run))
        if finding == "not studied"
        else _told(names, list(run), side)
        for (finding, side), run in groupby(comparisons, key=lambda c: (c.finding, c.side))
    ]
    return " ".join(
        [*told, NO_GROWTH] if any(c.finding != "not studied" for c in comparisons) else told
    )


def _modelled(question: Question, lengths: Lengths | None) -> Modelled:
    if lengths is None:
        return Modelled(missing="no model of muscle lengths was at hand")
    if question.within or question.relative_to:
        return Modelled(
            missing="each muscle's length is a share of its own range, so those of two muscles cannot be compared"
        )
    first, second = lengths(question.first, question.part), lengths(question.second, question.part)
    if isinstance(first, str):
        return Modelled(missing=first)
    if isinstance(second, str):
        return Modelled(missing=second)
    return Modelled(first, second)


def _finding(found: Modelled, margin: float) -> tuple[EvidenceFinding, Side | None]:
    if found.missing:
        return "not studied", None
    difference = found.first - found.second
    if below(abs(difference), margin):
        return "alike", None
    return "found", "more" if difference > 0 else "less"


def _told(names: Names, run: list[Comparison], side: Side | None) -> str:
    question = run[0].question
    first, second = names.exercise(question.first), names.exercise(question.second)
    parts = [
        f"{names.part(c.question.part)} (about {_against(c.modelled)})" for c in run if c.modelled
    ]
    one = len(run) == 1
    if one and run[0].modelled:
        parts, share = (
            [names.part(question.part)],
            f": about {_against(run[0].modelled)} of its own range on average",
        )
    else:
        share = ", each as an average share of its own range"
    be, rest = (
        "is" if one else "are",
        f"about as long in {first} as in {second}"
        if side is None
        else (f"{'longer' if side == 'more' else 'shorter'} in {first} than in {second}"),
    )
    return upper_first(
        f"by a computer model of one average body, {listed(parts)} {be} {rest}{share}."
    )


def _against(found: Modelled | None) -> str:
    assert found is not None
    return f"{percent(found.first)}% against {percent(found.second)}%"
