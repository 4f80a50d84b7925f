"""What an exercise favours, in one line: its best kind of evidence, and what was measured without showing more.

The words of certainty follow GRADE's informative statements (Santesso 2020), as in ``evidence.wording``: at very low certainty the
people are told, and that nobody should lean on it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..catalog.load import Catalog
from ..english import counted, listed, upper_first
from ..evidence.wording.names import Names
from .grid import EvidenceMap
from .marks import Cell, Mark, Reason

#: More parts than this are counted instead of named. Convention.
MOST_PARTS = 2
#: Place of a kind in the line: what puts the exercise ahead goes first, growth before activation; then what was only measured.
_PLACES = {
    ("growth", True): 0,
    ("activation", True): 1,
    ("growth", False): 2,
    ("activation", False): 3,
    ("length", True): 4,
    ("taught", True): 5,
}
STUDIED = ("growth", "activation")
NO_GROWTH = "That does not show growth."


@dataclass(frozen=True)
class _Group:
    """Parts of which the same is told, against the same exercise."""

    reason: Reason
    parts: tuple[str, ...]

    @property
    def place(self) -> tuple[int, int, int]:
        mark = self.reason.mark
        wide = ("found", "hinted", "wider", "no more", None).index(mark.fill)
        return _PLACES[mark.kind, mark.more], wide, -self.reason.people


class FavourSentences:
    """The lines of one catalog's exercises."""

    def __init__(self, evidence_map: EvidenceMap, names: Names, catalog: Catalog) -> None:
        self._map, self._names, self._catalog = evidence_map, names, catalog

    def of(self, exercise: str) -> str:
        """About 30 words: ``Trains the hamstrings. May grow the long head more than the prone leg curl (low certainty, 20 people).``

        Only parts that a set counts for are told of, those that it counts for directly before the others.
        """
        strip = self._map.strip(exercise)
        direct = [cell for cell in strip if cell.counts == "direct"]
        helped = [cell for cell in strip if cell.counts]
        trained = direct or helped
        says = [f"Trains {self._muscles(trained)}."] if trained else []
        for cells in (direct, helped):
            groups = sorted(_groups(cells), key=lambda group: group.place)
            if told := [group for group in groups if group.reason.mark.kind in STUDIED]:
                return " ".join([*says, *self._studied(told)])
        return " ".join([*says, self._untested(strip, direct)])

    def _studied(self, told: list[_Group]) -> Iterator[str]:
        yield self._told(told[0])
        if told[0].reason.mark.more and (nulls := _nulls(told)):
            yield f"Not shown to grow more: {self._parts(nulls)}."

    def _told(self, group: _Group) -> str:
        reason, parts, other = group.reason, self._wide(group), self._other(group.reason)
        if not reason.mark.more:
            verb = (
                "grow more than with" if reason.mark.kind == "growth" else "be more active than in"
            )
            return f"Not shown to {verb} {other}: {parts}."
        sure = reason.finding == "found"
        if reason.mark.kind == "activation":
            verb = "showed more activity" if sure else "seemed more active"
            return f"In one session {parts} {verb} than in {other} ({_people(reason)}). {NO_GROWTH}"
        if reason.certainty == "very low":
            verb = "grew more" if sure else "seemed to grow more"
            return f"{upper_first(parts)} {verb} than with {other} ({_people(reason)}); do not lean on it yet."
        verb = {"low": "May grow", "moderate": "Probably grows"}.get(
            reason.certainty or "", "Grows"
        )
        return (
            f"{verb} {parts} more than {other} ({reason.certainty} certainty, {_people(reason)})."
        )

    def _untested(self, strip: Sequence[Cell], direct: Sequence[Cell]) -> str:
        if any(cell.tested for cell in strip):
            says = "No study here compares it for what it trains."
        elif any(cell.aside for cell in strip):
            says = "Studies here compare only ranges, holds or parts in it."
        else:
            says = "No study here compares it."
        for group in sorted(_groups(direct), key=lambda group: group.place):
            if group.reason.mark.kind == "length":
                return f"{says} Long under load, by the model: {self._parts(group.parts)}."
            return f"{says} Commonly taught for {self._parts(group.parts)}."
        return says

    def _wide(self, group: _Group) -> str:
        """What was measured: the parts, or their muscles where each was measured as one."""
        if group.reason.measured == "part":
            return self._parts(group.parts)
        if group.reason.measured == "whole":
            muscles = list(dict.fromkeys(part.partition("/")[0] for part in group.parts))
            each = "each " if len(muscles) > 1 else ""
            return f"{listed([self._names.part(id) for id in muscles])} ({each}as a whole)"
        how = "together" if len(group.parts) > 1 else "with other parts"
        return f"{self._parts(group.parts)} (measured {how})"

    def _other(self, reason: Reason) -> str:
        return self._names.exercise(reason.against or "")

    def _muscles(self, cells: Iterable[Cell]) -> str:
        """The muscles of some parts; a part by itself where no other of its muscle is among them."""
        found: dict[str, list[str]] = {}
        for cell in cells:
            found.setdefault(cell.part.partition("/")[0], []).append(cell.part)
        return listed(
            [self._names.part(own[0] if len(own) == 1 else muscle) for muscle, own in found.items()]
        )

    def _parts(self, parts: Iterable[str]) -> str:
        """``the rectus femoris``; ``the quadriceps`` where all of a muscle's parts are meant."""
        left = list(dict.fromkeys(parts))
        found: list[str] = []
        for muscle in dict.fromkeys(part.partition("/")[0] for part in left):
            own = [part for part in left if part.partition("/")[0] == muscle]
            if len(own) > 1 and len(own) == len(self._catalog.muscles[muscle].data.parts):
                found.append(self._names.part(muscle))
            elif len(own) > MOST_PARTS:
                found.append(f"{len(own)} parts of {self._names.part(muscle)}")
            else:
                found.append(self._names.parts(own))
        return listed(found)


def _groups(strip: Sequence[Cell]) -> list[_Group]:
    found: dict[tuple[object, ...], list[Cell]] = {}
    for cell in strip:
        if cell.reasons:
            best = cell.reasons[0]
            key = best.mark, best.against, best.measured, best.certainty, best.finding
            found.setdefault(key, []).append(cell)
    return [
        _Group(cells[0].reasons[0], tuple(cell.part for cell in cells)) for cells in found.values()
    ]


def _nulls(groups: Iterable[_Group]) -> list[str]:
    return [
        part
        for group in groups
        if group.reason.mark == Mark("growth", "no more") and group.reason.measured == "part"
        for part in group.parts
    ]


def _people(reason: Reason) -> str:
    people = counted(reason.people, "person", "people")
    return f"one study, {people}" if reason.studies == 1 else f"{reason.studies} studies, {people}"
