"""What an exercise is said to favour: its statements by outcome, the weightiest first, each with its mark, bars and sources."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

from ...catalog import entries
from ...english import listed, lower_first
from ...evidence.claims.conclude import question
from ...evidence.claims.conclusions import ClaimFinding, Conclusion
from ...evidence.terms import LEVELS
from ...evidence.wording import sentences
from ...evidence.wording.sentences import ComposedAnswer
from ...evidence_map.marks import Fill, Mark, MarkKind
from ..addresses import url
from ..context import Grounds, Link, PageContext, RenderContext
from ..map import mark as marks
from ..plots import gain_bars
from ..plots.gain_bars import GainBars
from . import comparison as comparisons
from . import labels as words
from .comparison import ComparisonView

#: Findings in the order in which they matter to a coach; certainty, then people decide among equals.
_FINDINGS: tuple[ClaimFinding, ...] = (
    "found",
    "opposite",
    "hinted",
    "alike",
    "unclear",
    "not studied",
)
#: Findings that stand one step below where an outcome has more statements than a glance takes, and how they are headed.
_FOLDED: dict[ClaimFinding, str] = {
    "unclear": "Measured, nothing clear",
    "not studied": "Taught, or printed without a test",
}
#: Statements that are taken at a glance. Convention.
GLANCE = 4
#: Drawings of one statement; the others stand one step below. Convention.
MOST_BARS = 2
#: Statements of one outcome on a printed page, which tells how many more there are. Convention.
MOST_PRINTED = 2


@dataclass(frozen=True)
class ClaimView:
    """One claim: its sentence and what was found of it, and one step below everything they rest on."""

    anchor: str
    tested: bool
    told: tuple[ComposedAnswer, ...]
    finding: ClaimFinding
    certainty: str | None
    claimed: str
    because: str
    reason: str
    disputed: str | None
    taught: tuple[str, str] | None
    """What is commonly taught of it, and how, beside a claim that cites."""
    mark: Markup
    """Its mark on the map, from this exercise's side; empty where the map has none for it."""
    bars: list[Markup]
    """What people gained with either exercise, one drawing for each part that differs."""
    comparisons: list[ComparisonView]
    sources: list[Link]
    """The studies it rests on, each at its table."""
    grounds: Grounds


@dataclass(frozen=True)
class OutcomeGroup:
    """The claims on one outcome; outcomes are never mixed."""

    outcome: str
    mark: str
    limit: str | None
    claims: list[ClaimView]
    folded: list[tuple[str, list[ClaimView]]]
    """What says less, one step below: how it is headed, and the claims."""
    printed: int
    """How many of the claims a printed page has room for; the weightiest stand first."""


def view(desk: PageContext, id: str) -> list[OutcomeGroup]:
    """The statements of one exercise."""
    conclusions = sorted(desk.shelf.conclusions.of(id), key=_weight)
    return [
        _outcome(desk, outcome, found)
        for outcome in words.OUTCOMES
        if (found := [c for c in conclusions if c.outcome == outcome])
    ]


def left_out(desk: PageContext, outcomes: Sequence[OutcomeGroup]) -> str:
    """What a printed page leaves out, and where it stands."""
    counts = Counter[str]()
    for outcome in outcomes:
        counts.update({heading: len(claims) for heading, claims in outcome.folded})
        counts.update({"Further": max(len(outcome.claims) - outcome.printed, 0)})
    told = [f"{lower_first(heading)} {count}" for heading, count in counts.items() if count]
    folded = f"Statements not printed: {listed(told)}. " if told else ""
    where = desk.shelf.site.at(url(desk.uri))
    return f"{folded}Numbers, reasons and sources stand on this exercise's page{f': {where}' if where else ''}."


def _mark(conclusion: Conclusion, claim: entries.Claim) -> Markup:
    asked = [comparison.question for comparison in conclusion.comparisons]
    # As on the map: two parts of one exercise, or a ratio to another part, rank no exercises.
    apart = any(question.within or question.relative_to for question in asked)
    if apart or conclusion.outcome not in ("growth", "activation"):
        return Markup("")
    kind: MarkKind = "growth" if conclusion.outcome == "growth" else "activation"
    if conclusion.finding == "not studied":
        taught = conclusion.basis == "common practice"
        return marks.drawing(Mark("taught")) if taught else Markup("")
    ahead = claim.direction == "more_than" and conclusion.finding in ("found", "hinted")
    fill: Fill = "no more"
    if ahead:
        wide = any(
            c.measured != "part" or "/" not in c.question.part for c in conclusion.comparisons
        )
        fill = "wider" if wide else "found" if conclusion.finding == "found" else "hinted"
    return marks.drawing(Mark(kind, fill))


def _bars(desk: PageContext, conclusion: Conclusion) -> list[Markup]:
    """Of growth that was found or hinted; what tells no difference is drawn one step below."""
    if conclusion.outcome != "growth" or conclusion.finding not in ("found", "hinted", "opposite"):
        return []
    names = desk.shelf.names
    drawn: dict[object, GainBars] = {}
    for n, comparison in enumerate(conclusion.comparisons):
        id = f"bars-{conclusion.index + 1}-{n + 1}"
        if made := gain_bars.bars(names, comparison, id):
            drawn.setdefault((made.look, made.bars, made.whisker), made)
    return [Markup(gain_bars.svg(made)) for made in drawn.values()][:MOST_BARS]


def figure(conclusion: Conclusion, n: int) -> str:
    """What a claim's nth plot (from 0) is called."""
    return f"claim-{conclusion.index + 1}-{n + 1}"


def _weight(conclusion: Conclusion) -> tuple[int, int, int, int]:
    """Its place among the statements on one outcome."""
    rated = conclusion.certainty
    return (
        _FINDINGS.index(conclusion.finding),
        -LEVELS.index(rated.level) if rated else 1,
        -max((c.people for c in conclusion.comparisons), default=0),
        conclusion.index,
    )


def _outcome(desk: PageContext, outcome: str, conclusions: list[Conclusion]) -> OutcomeGroup:
    claims = desk.shelf.catalog.exercises[conclusions[0].exercise].data.emphasis
    views = [_claim(desk, c, claims[c.index]) for c in conclusions]
    many = len(views) > GLANCE
    folded = [
        (heading, found)
        for finding, heading in _FOLDED.items()
        if many and (found := [view for view in views if view.finding == finding])
    ]
    below = [view for _, found in folded for view in found]
    return OutcomeGroup(
        words.OUTCOMES[outcome],
        outcome,
        words.LIMITS.get(outcome),
        [view for view in views if view not in below],
        folded,
        MOST_PRINTED,
    )


def _claim(desk: PageContext, conclusion: Conclusion, claim: entries.Claim) -> ClaimView:
    return ClaimView(
        anchor=f"claim-{conclusion.index + 1}",
        tested=conclusion.finding != "not studied",
        told=conclusion.told,
        finding=conclusion.finding,
        certainty=conclusion.certainty.level if conclusion.certainty else None,
        claimed=claimed(desk.shelf, conclusion),
        because=claim.because,
        reason=conclusion.reason,
        disputed=claim.disputed,
        taught=_taught(desk.shelf, conclusion, claim),
        comparisons=[
            comparisons.view(desk, c, figure(conclusion, n))
            for n, c in enumerate(conclusion.comparisons)
            if c.rows or c.estimate
        ],
        mark=_mark(conclusion, claim),
        bars=_bars(desk, conclusion),
        sources=_sources(desk, conclusion),
        grounds=desk.grounds(claim),
    )


def _sources(desk: PageContext, conclusion: Conclusion) -> list[Link]:
    rows = {
        row.study: row for comparison in conclusion.comparisons for row in reversed(comparison.rows)
    }
    return [
        desk.source(row.study, row.results[0] if row.results else None)
        for row in sorted(rows.values(), key=lambda row: (not row.weighed, -row.people, row.study))
    ]


def _taught(
    shelf: RenderContext, conclusion: Conclusion, claim: entries.Claim
) -> tuple[str, str] | None:
    if claim.taught is None:
        return None
    asked = question(conclusion.exercise, claim, claim.part[0])
    told = sentences.claimed(shelf.names, asked, tuple(claim.part), claim.taught.says)
    return told, claim.taught.common_practice


def claimed(shelf: RenderContext, conclusion: Conclusion) -> str:
    """The claim itself, as the author makes it."""
    claim = shelf.catalog.exercises[conclusion.exercise].data.emphasis[conclusion.index]
    directions: dict[str, Literal["more", "less", "alike"]] = {
        "more_than": "more",
        "less_than": "less",
        "similar_to": "alike",
    }
    asked = question(conclusion.exercise, claim, claim.part[0])
    return sentences.claimed(shelf.names, asked, tuple(claim.part), directions[claim.direction])
