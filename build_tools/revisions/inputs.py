"""What conclusions are drawn from, and what of it changed: studies, conventions, entries, words, model, program."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any

from . import leaves, places
from .entries import EntryChange
from .leaves import Leaf
from .snapshot import Snapshot

#: Fields of a study that no conclusion is drawn from, and remarks on a number.
_TOLD_ONLY = {"says", "limits", "left_out"}
_BESIDE = {"note", "because", "at", "rows", "file", "taught", "disputed", "common_practice"}
#: Conventions that no conclusion is drawn from, and what a convention says of itself.
_NO_INPUT = ("review_interval", "exercises_per_part", "years_ahead", "size_impossible")
_REMARKS = {"means", "observed", "common_practice", "cites", "unit"}
#: Conventions that are named otherwise than by their outcome.
_OF_GROWTH = ("length_slope", "conversion_")
OUTCOMES = ("growth", "activation", "strength", "length")
#: Sections of vocabulary.yaml that decide what is weighed, and those that decide where a body is.
_WEIGHING = ("measures", "designs", "appraisal_questions", "versions")
_POSTURE = ("positions", "joints", "load_points", "versions")


class Inputs:
    """Everything that changed between two states and can stand behind a conclusion."""

    def __init__(self, before: Snapshot, now: Snapshot, changed: Sequence[EntryChange]) -> None:
        self.before, self.now = before, now
        self._entries = {(change.kind, change.id): change for change in changed}

    def entry(self, kind: str, id: str) -> EntryChange | None:
        """What became of an entry, if anything."""
        return self._entries.get((kind, id))

    @cached_property
    def studies(self) -> dict[str, EntryChange]:
        """Key -> each study that came, went, or of which something changed that is weighed."""
        return {
            id: change
            for (kind, id), change in self._entries.items()
            if kind == "studies" and (not change.leaves or any(map(_is_weighed, change.leaves)))
        }

    def of_study(self, key: str, outcome: str, parts: Collection[str]) -> EntryChange | None:
        """What changed of a study, if it can bear on an outcome of these parts or their muscles; with those leaves alone."""
        change = self.studies.get(key)
        if change is None or not change.leaves:
            return change
        muscles = {part.partition("/")[0] for part in parts}
        old = self.before.mapping(f"studies/{change.was or change.id}.yaml")
        new = self.now.mapping(f"studies/{change.id}.yaml")
        kept = []
        for leaf in filter(_is_weighed, change.leaves):
            side, data = (self.now, new) if leaf.now is not None else (self.before, old)
            result = places.inside(data.get("results"), leaf.path[1]) if leaf.path[1:] else None
            if leaf.path[0] != "results" or not isinstance(result, dict):
                kept.append(leaf)
            elif any(out == outcome and of & muscles for out, of in _measured(side, [result])):
                kept.append(leaf)
        numbers = tuple(places.numbers(kept, old, new))
        return replace(change, leaves=tuple(kept), numbers=numbers) if kept else None

    def has_other_certainty(self, exercise: str, number: int) -> bool:
        """Whether a claim of an exercise, by its number from 1, sets another certainty; its direction moves no answer."""
        change = self.entry("exercises", exercise)
        return change is not None and any(
            leaf.path[:3] == ("emphasis", number - 1, "certainty") for leaf in change.leaves
        )

    def studies_of(self, outcome: str, part: str | None = None) -> list[str]:
        """Changed studies that measured an outcome (on a part, or a part of the same muscle), by key."""
        return [
            key
            for key, change in self.studies.items()
            if any(
                found == outcome and (part is None or part.partition("/")[0] in muscles)
                for found, muscles in self._of_results(change)
            )
        ]

    def conventions(self, outcome: str) -> list[Leaf]:
        """Changed numbers of conventions that bear on an outcome."""
        return [leaf for leaf, bears in self._conventions if outcome in bears]

    def words(self, outcome: str) -> list[str]:
        """Changed sections of the vocabulary that bear on an outcome."""
        sections = _POSTURE if outcome == "length" else _WEIGHING
        old, new = (side.mapping("vocabulary.yaml") for side in (self.before, self.now))
        return [name for name in sections if old.get(name) != new.get(name)]

    @cached_property
    def model(self) -> list[str]:
        """Changed files of the model of lengths."""
        paths = sorted({*self.before.texts, *self.now.texts})
        return [
            path
            for path in paths
            if path.startswith("model/")
            and not path.endswith(".md")
            and self.before.texts.get(path) != self.now.texts.get(path)
        ]

    def convention(self, leaf: Leaf) -> str:
        """``margin_growth 1.02 → 1.03``."""
        old, new = (side.mapping("handbook.yaml") for side in (self.before, self.now))
        return places.told(leaf, old, new).removeprefix("conventions, ")

    @cached_property
    def _conventions(self) -> list[tuple[Leaf, tuple[str, ...]]]:
        old, new = (
            side.mapping("handbook.yaml", "conventions") for side in (self.before, self.now)
        )
        found = []
        for leaf in leaves.differing(dict(old), dict(new)):
            name = str(leaf.path[0]) if leaf.path else ""
            if name and not name.startswith(_NO_INPUT) and not _REMARKS & set(map(str, leaf.path)):
                under = Leaf(("conventions", *leaf.path), leaf.before, leaf.now)
                found.append((under, _bears_on(name, leaf, old, new)))
        return found

    def _of_results(self, change: EntryChange) -> Iterator[tuple[str, set[str]]]:
        """Outcome and muscles of each result that a study has or had."""
        for side, id in ((self.before, change.was or change.id), (self.now, change.id)):
            results = side.mapping(f"studies/{id}.yaml").get("results")
            yield from _measured(side, results if isinstance(results, list) else [])


def _is_weighed(leaf: Leaf) -> bool:
    """Whether a leaf can bear on a number: it is no remark."""
    return not leaf.path or (leaf.path[0] not in _TOLD_ONLY and leaf.path[-1] not in _BESIDE)


def _measured(side: Snapshot, results: Sequence[Any]) -> Iterator[tuple[str, set[str]]]:
    measures = side.mapping("vocabulary.yaml", "measures")
    for result in results:
        if isinstance(result, dict):
            measure, parts = measures.get(str(result.get("measure"))), result.get("parts")
            outcome = measure.get("outcome") if isinstance(measure, dict) else None
            named = map(str, parts) if isinstance(parts, list) else ()
            yield str(outcome), {part.partition("/")[0] for part in named}


def _bears_on(
    name: str, leaf: Leaf, old: Mapping[str, Any], new: Mapping[str, Any]
) -> tuple[str, ...]:
    if name == "correlations" and len(leaf.path) > 2:
        _, kind, index, *_ = leaf.path
        for side in (new, old):
            listed = side.get(name)
            items = listed.get(kind) if isinstance(listed, dict) else None
            if isinstance(items, list) and isinstance(index, int) and index < len(items):
                outcome = items[index].get("outcome") if isinstance(items[index], dict) else None
                return (str(outcome),) if outcome else OUTCOMES
    if name.startswith(_OF_GROWTH):
        return ("growth",)
    return tuple(outcome for outcome in OUTCOMES if name.endswith(f"_{outcome}")) or OUTCOMES
