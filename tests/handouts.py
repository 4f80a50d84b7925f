"""Handouts made at random within the limits."""

from __future__ import annotations

from hypothesis import strategies as st

from build_tools.handout import limits
from build_tools.handout.fragment import Handout, Item

KNOWN = {"crate-curl": "crate-curl", "cable-curl": "cable-curl"}


def _words(most: int) -> st.SearchStrategy[str]:
    shown = st.characters(codec="utf-8", exclude_categories=["Cc", "Cf", "Zl", "Zp"])
    return st.text(shown, min_size=1, max_size=most)


def _rising(low: int, high: int) -> st.SearchStrategy[str]:
    single = st.integers(low, high).map(str)
    return single | st.tuples(st.integers(low, high - 1), st.integers(1, 50)).map(lambda t: f"{t[0]}-{min(t[0] + t[1], high)}")


def _within(field: str) -> st.SearchStrategy[int]:
    limit = limits.FIELDS[field]
    assert isinstance(limit, limits.Number)
    return st.integers(limit.low, limit.high)


def items() -> st.SearchStrategy[Item]:
    """Any exercise of a handout."""
    seconds = st.tuples(_rising(1, 999), st.sampled_from(["", "s"])).map("".join)
    return st.builds(
        Item, st.sampled_from(sorted(KNOWN)), st.none() | _within("sets"), st.none() | seconds, st.none() | _words(20),
        st.none() | _within("left"), st.none() | _within("rest"),
        st.none() | st.from_regex(limits.FIELDS["tempo"].pattern, fullmatch=True), st.none() | _words(140))


def handouts() -> st.SearchStrategy[Handout]:
    """Any handout, whose link may still be too long."""
    listed = st.lists(items(), min_size=1, max_size=limits.MOST_EXERCISES).map(tuple)
    return st.builds(Handout, st.none() | _words(limits.TITLE_LENGTH), listed)
