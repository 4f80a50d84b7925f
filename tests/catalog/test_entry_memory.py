"""What is found of an entry is found once, and anew with another entry or beside another one."""

from __future__ import annotations

import gc
import weakref
from collections import Counter
from typing import Any

from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.load import Loaded

asked: Counter[str] = Counter()


def entry(id: str) -> Loaded[Any]:
    return Loaded(id, None, None)  # type: ignore[arg-type, type-var]


@once_per_entry
def names(one: Loaded[Any], *others: Loaded[Any] | None) -> list[str]:
    asked[one.id] += 1
    return [one.id, *(other.id if other else "none" for other in others)]


def test_it_is_found_once_for_the_very_same_entries() -> None:
    asked.clear()
    one, two = entry("one"), entry("two")
    assert names(one, two, None) == names(one, two, None) == ["one", "two", "none"]
    assert asked == {"one": 1}
    # Alike is not the same: it may have been read from another text.
    assert names(one, entry("two"), None) == ["one", "two", "none"] and asked == {"one": 2}
    assert names(one) == ["one"] and names(entry("one")) == ["one"] and asked == {"one": 4}


def test_what_was_found_goes_with_its_entry() -> None:
    """What was found may hold the entry itself, as a statement does."""

    @once_per_entry
    def itself(one: Loaded[Any]) -> list[Loaded[Any]]:
        return [one]

    passing = entry("passing")
    assert itself(passing) is itself(passing)
    gone = weakref.ref(passing)
    del passing
    gc.collect()
    assert gone() is None
