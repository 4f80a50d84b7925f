"""What a lesson has room for: the strongest statements on a muscle, what was measured without anything clear, and the exercises it shows.

Growth and activation are chosen apart and never weighed against each other. Parts take turns, so that no part fills a lesson alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from ...evidence.claims.conclusions import Comparison
from ...evidence.terms import LEVELS, EvidenceFinding
from ...evidence.treatments import is_version
from ..context import RenderContext
from ..pages.muscles.card import answer
from ..sections.labels import OUTCOMES

#: Statements of each outcome, and of activation where nothing is known of growth. Convention.
MOST_GROWTH, MOST_ACTIVATION, MOST_ACTIVATION_ALONE = 5, 2, 4
#: Pairs that show nothing clear, and exercises. Convention.
MOST_UNCLEAR, MOST_EXERCISES = 4, 3
_AHEAD: tuple[EvidenceFinding, ...] = ("found", "hinted")
_UNCLEAR: tuple[EvidenceFinding, ...] = ("unclear", "alike")


def places(shelf: RenderContext, muscle: str) -> list[str]:
    """Its parts, then the muscle as a whole."""
    return [*(f"{muscle}/{part}" for part in shelf.catalog.muscles[muscle].data.parts), muscle]


def told(shelf: RenderContext, muscle: str, outcomes: Sequence[str]) -> Iterator[Comparison]:
    """Every statement on two exercises, part by part, that its pages make; what was only printed side by side, too."""
    for ref in places(shelf, muscle):
        for outcome in outcomes:
            for field in shelf.fields.get(ref, []):
                if field.outcome == outcome and field.relative_to is None:
                    yield from (
                        comparison for comparison in field.comparisons if comparison.sentence
                    )


def studied(shelf: RenderContext, muscle: str) -> list[Comparison]:
    """All of them that any study tested, outcome by outcome in each part."""
    return [c for c in told(shelf, muscle, list(OUTCOMES)) if c.finding != "not studied"]


def strongest(shelf: RenderContext, muscle: str) -> tuple[list[Comparison], list[Comparison]]:
    """The statements on growth, and those on activation, that put an exercise ahead in a study of both."""
    growth = _turns(shelf, muscle, "growth", _AHEAD, MOST_GROWTH)
    most = MOST_ACTIVATION if growth else MOST_ACTIVATION_ALONE
    return growth, _turns(shelf, muscle, "activation", _AHEAD, most)


def unclear(shelf: RenderContext, muscle: str) -> tuple[str, list[Comparison], int]:
    """What was tested and not shown: the outcome, pairs, and how many there are; activation only where no growth was measured."""
    for outcome in ("growth", "activation"):
        found = [c for c in told(shelf, muscle, [outcome]) if c.finding in _UNCLEAR]
        if found:
            return outcome, _turns(shelf, muscle, outcome, _UNCLEAR, MOST_UNCLEAR), len(found)
    return "growth", [], 0


def exercises(shelf: RenderContext, muscle: str) -> list[str]:
    """The exercises that answer for its parts, the first of each part before the second of any."""
    parts = [answer(shelf, ref).chosen for ref in places(shelf, muscle)[:-1]]
    turns = (id for turn in zip_longest(*parts) for id in turn if id)
    return list(dict.fromkeys(turns))[:MOST_EXERCISES]


def _turns(
    shelf: RenderContext,
    muscle: str,
    outcome: str,
    findings: Sequence[EvidenceFinding],
    most: int,
) -> list[Comparison]:
    groups: dict[str, list[Comparison]] = {}
    seen = set()
    for comparison in told(shelf, muscle, [outcome]):
        number = _number(comparison)
        if comparison.finding in findings and comparison.rows and number not in seen:
            seen.add(number)
            groups.setdefault(comparison.question.part, []).append(comparison)
    sorted_groups = (sorted(group, key=_strength) for group in groups.values())
    turns = (sorted(filter(None, turn), key=_strength) for turn in zip_longest(*sorted_groups))
    return sorted([comparison for turn in turns for comparison in turn][:most], key=_strength)


def _number(comparison: Comparison) -> object:
    """What was measured: one number over several parts is told of each of them, and shown once."""
    asked = comparison.question
    alone = asked.part if comparison.measured == "part" else None
    measured = frozenset((row.study, row.results) for row in comparison.rows)
    return frozenset((asked.first, asked.second)), alone, measured


def _strength(comparison: Comparison) -> tuple[object, ...]:
    """The surest first, then what was found, of the part alone, of exercises before versions of one, of most people."""
    asked, rated = comparison.question, comparison.certainty
    return (
        -LEVELS.index(rated.level) if rated else 1,
        comparison.finding not in ("found", "alike"),
        comparison.measured != "part",
        is_version(asked.first) or is_version(asked.second),
        -comparison.people,
        asked.part,
        asked.first,
        asked.second,
    )
