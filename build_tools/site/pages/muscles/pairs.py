"""Pairs of exercises on one part or muscle: two bars and a sentence each, numbers and reasons one step below.

What puts an exercise ahead stands apart from what was measured without anything clear, and both from numbers printed side by
side that nobody tested. One number over several parts is told under a bracket over them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from ....english import upper_first
from ....evidence.claims.conclusions import Comparison, PartEvidence
from ....evidence.terms import LEVELS
from ....evidence.treatments import is_version, pair_anchor
from ....evidence.wording.sentences import in_brief
from ....evidence_map.marks import Fill, Mark
from ...context import Link, PageContext
from ...map import mark as marks
from ...plots import gain_bars
from ...plots.gain_bars import Reach
from ...sections import outlook, ranking
from ...sections.comparison import CertaintyView, RowView, bare, certainty, row
from ...sections.outlook import OutlookView
from ...sections.ranking import Standing

#: Outcomes of which pairs are drawn, each with its heading.
DRAWN = {"growth": "Growth after weeks of training", "activation": "Activation in one session"}


@dataclass(frozen=True)
class BarsView:
    """One pair: drawn, said, and what it rests on."""

    anchor: str
    bars: Markup | None
    sign: Markup
    """Instead of bars: the mark of what was found."""
    asked: str
    brief: str
    """One sentence; without the numbers where they are drawn."""
    sentence: str
    """All of it."""
    bracket: list[str]
    """The parts that one number covers; empty where the part was measured alone."""
    links: list[Link]
    rows: list[RowView]
    certainty: CertaintyView | None
    outlook: OutlookView | None


@dataclass(frozen=True)
class BarsGroup:
    """Pairs of which the same was found, the surest first; no order of exercises."""

    heading: str
    pairs: list[BarsView]


@dataclass(frozen=True)
class PairsView:
    """One outcome of one part or muscle."""

    outcome: str
    heading: str
    groups: list[BarsGroup]
    together: list[BarsGroup]
    """What was measured with other parts, or only on the whole muscle."""
    never: list[BarsView]
    """Printed side by side, never tested."""
    standings: list[Standing]
    apart: str | None

    @property
    def count(self) -> int:
        """How many pairs were measured."""
        return sum(len(group.pairs) for group in (*self.groups, *self.together))


def view(desk: PageContext, field: PartEvidence) -> PairsView:
    """The pairs of a field as seen from one page."""
    told = [c for c in field.comparisons if c.sentence]
    reach = gain_bars.common_reach(told)
    studied = sorted((c for c in told if c.finding != "not studied"), key=_order)
    alone = [c for c in studied if c.measured == "part"]
    wider = [c for c in studied if c.measured != "part"]
    orders = ranking.standings(desk, field)
    return PairsView(
        outcome=field.outcome,
        heading=DRAWN[field.outcome],
        groups=_groups(desk, alone, reach),
        together=_groups(desk, wider, reach),
        never=[pair(desk, c, reach) for c in told if c.finding == "not studied"],
        standings=orders,
        apart=ranking.APART if len(orders) > 1 else None,
    )


def anchors(field: PartEvidence) -> Iterator[str]:
    """The anchors of a field's pairs."""
    for comparison in field.comparisons:
        if comparison.sentence:
            asked = comparison.question
            yield pair_anchor(asked.outcome, asked.first, asked.second)


_HEADINGS = {
    "growth": ("Grew more", "Leans to more growth"),
    "activation": ("More active", "Leans to more active"),
}


def _groups(desk: PageContext, found: list[Comparison], reach: Reach | None) -> list[BarsGroup]:
    if not found:
        return []
    more, leans = _HEADINGS[found[0].question.outcome]
    kinds = (
        (more, ("found",)),
        (leans, ("hinted",)),
        ("Measured, nothing clear", ("unclear", "alike")),
    )
    groups = [
        BarsGroup(heading, [pair(desk, c, reach) for c in found if c.finding in findings])
        for heading, findings in kinds
    ]
    return [group for group in groups if group.pairs]


def pair(
    desk: PageContext, comparison: Comparison, reach: Reach | None, id: str | None = None
) -> BarsView:
    """One pair as seen from one page; ``id`` is that of its drawing where its anchor is not the only one of its name there."""
    asked, names = comparison.question, desk.shelf.names
    anchor = pair_anchor(asked.outcome, asked.first, asked.second)
    drawn = gain_bars.bars(names, comparison, id or f"bars-{anchor}", reach)
    growth = asked.outcome == "growth"
    return BarsView(
        anchor=anchor,
        bars=Markup(gain_bars.svg(drawn)) if drawn else None,
        sign=marks.drawing(_mark(comparison)),
        asked=upper_first(
            " against ".join(
                bare(names.exercise(side))
                for side in (asked.first, asked.second)[:: -1 if comparison.side == "less" else 1]
            )
        ),
        brief=in_brief(comparison.sentence, drawn is not None),
        sentence=comparison.sentence,
        bracket=_bracket(desk, comparison),
        links=[desk.exercise(asked.first), desk.exercise(asked.second)],
        rows=[row(desk, r) for r in comparison.rows],
        certainty=certainty(comparison.certainty) if comparison.certainty else None,
        outlook=outlook.view(desk.shelf, comparison) if growth else None,
    )


def _mark(comparison: Comparison) -> Mark:
    fill: Fill = "no more"
    if comparison.side and comparison.finding in ("found", "hinted"):
        fill = "wider" if comparison.measured != "part" else comparison.finding
    return Mark("growth" if comparison.question.outcome == "growth" else "activation", fill)


def _bracket(desk: PageContext, comparison: Comparison) -> list[str]:
    """The parts, or the whole muscle, that what was measured covers."""
    if comparison.measured == "part":
        return []
    part, names = comparison.question.part, desk.shelf.names
    if comparison.measured == "whole":
        return [f"whole {bare(names.part(part.partition('/')[0]))}"]
    others = sorted({other for r in comparison.rows if r.weighed for other in r.together})
    return [bare(names.part(ref)) for ref in (part, *others)]


def _order(comparison: Comparison) -> tuple[object, ...]:
    """Exercises before versions of one; the surest first, then of most people, then by name."""
    asked, rated = comparison.question, comparison.certainty
    level = LEVELS.index(rated.level) if rated else -1
    return (
        is_version(asked.first) or is_version(asked.second),
        -level,
        -comparison.people,
        asked.first,
        asked.second,
    )
