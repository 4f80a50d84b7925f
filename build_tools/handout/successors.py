"""What a link or file shows whose own exercise or part was retired."""

from __future__ import annotations

from collections.abc import Mapping

from ..catalog.load import Catalog


def shown(exercises: Mapping[str, object], moved: Mapping[str, str]) -> dict[str, str]:
    """Every id that a link may hold -> the id to show. ``moved`` maps retired ids to successors, which may be retired too."""
    found = {id: id for id in exercises}
    for old in moved:
        last, seen = old, {old}
        while last in moved and last not in exercises and moved[last] not in seen:
            last = moved[last]
            seen.add(last)
        if last in exercises:
            found.setdefault(old, last)
    return found


def moved_on(catalog: Catalog) -> dict[str, dict[str, str]]:
    """Old id -> the living one, of ``exercises`` and of ``parts`` (whole muscles among them); only what moved."""
    if catalog.moved is None:
        return {"exercises": {}, "parts": {}}
    moved = catalog.moved.data
    parts = {**moved.muscles, **moved.parts}
    for old, new in moved.muscles.items():
        # As pages do: what the successor has under the same name.
        of = catalog.muscles[new].data.parts if new in catalog.muscles else ()
        parts = {f"{old}/{part}": f"{new}/{part}" for part in of} | parts
    found = {
        "exercises": shown(catalog.exercises, moved.exercises),
        "parts": shown(dict.fromkeys(catalog.part_refs()), parts),
    }
    return {
        kind: {old: new for old, new in ids.items() if old != new} for kind, ids in found.items()
    }


def taken_out(catalog: Catalog) -> dict[str, str]:
    """Exercises that were retired without a successor, by the names that they had."""
    gone = catalog.moved.data.retired.exercises if catalog.moved else {}
    return {id: one.name for id, one in gone.items()}
