"""Which exercise a link shows whose own was retired."""

from __future__ import annotations

from collections.abc import Mapping


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
