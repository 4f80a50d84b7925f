"""Handouts as the tests write them, their links by the page's own script, and handouts made at random within the limits."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import date

import script_rules
from hypothesis import strategies as st

from build_tools.handout import limits

CONCERNS = ("shoulder", "lower-back", "knee")
KNOWN = {"crate-curl": "crate-curl", "cable-curl": "cable-curl"}


@dataclass(frozen=True)
class Item:
    """One exercise of a handout, in the order of a link's row."""

    id: str
    sets: int | None = None
    repetitions: str | None = None
    load: str | None = None
    left: int | None = None
    rest: int | None = None
    tempo: str | None = None
    note: str | None = None


@dataclass(frozen=True)
class Day:
    """Exercises of one day in order; None: a day without a name."""

    day: int | None
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Handout:
    """Days, under a title, with the concerns whose lines stand on top."""

    title: str | None
    coach: str | None
    date: str | None
    care: tuple[str, ...]
    days: tuple[Day, ...]

    @property
    def items(self) -> tuple[Item, ...]:
        """All exercises in order."""
        return tuple(item for day in self.days for item in day.items)


def single(title: str | None, items: tuple[Item, ...]) -> Handout:
    """A handout of one day without a name."""
    return Handout(title, None, None, (), (Day(None, items),))


def encode(handout: Handout) -> str:
    """The fragment of a handout. Raises ``script_rules.Refused``."""
    return script_rules.link.encode(asdict(handout), limits.as_data())


def decode(text: str, known: dict[str, str]) -> Handout:
    """The handout of a fragment. Raises ``script_rules.Refused``."""
    found = script_rules.link.decode(text, limits.as_data(), script_rules.Map(known))
    days = (Day(day["day"], tuple(Item(**item) for item in day["items"])) for day in found["days"])
    return Handout(found["title"], found["coach"], found["date"], tuple(found["care"]), tuple(days))


def _words(most: int) -> st.SearchStrategy[str]:
    shown = st.characters(codec="utf-8", exclude_categories=["Cc", "Cf", "Zl", "Zp"])
    return st.text(shown, min_size=1, max_size=most)


def _rising(low: int, high: int) -> st.SearchStrategy[str]:
    single = st.integers(low, high).map(str)
    return single | st.tuples(st.integers(low, high - 1), st.integers(1, 50)).map(
        lambda t: f"{t[0]}-{min(t[0] + t[1], high)}"
    )


def _within(field: str) -> st.SearchStrategy[int]:
    limit = limits.FIELDS[field]
    assert isinstance(limit, limits.Number)
    return st.integers(limit.low, limit.high)


def items() -> st.SearchStrategy[Item]:
    """Any exercise of a handout."""
    seconds = st.tuples(_rising(1, 999), st.sampled_from(["", "s"])).map("".join)
    return st.builds(
        Item,
        st.sampled_from(sorted(KNOWN)),
        st.none() | _within("sets"),
        st.none() | seconds,
        st.none() | _words(20),
        st.none() | _within("left"),
        st.none() | _within("rest"),
        st.none() | st.from_regex(limits.FIELDS["tempo"].pattern, fullmatch=True),
        st.none() | _words(140),
    )


def handouts() -> st.SearchStrategy[Handout]:
    """Any handout, whose link may still be too long."""
    listed = st.lists(items(), min_size=1, max_size=limits.MOST_EXERCISES).map(tuple)
    week = st.dictionaries(st.integers(0, 6), listed, min_size=1).map(
        lambda found: tuple(Day(*day) for day in sorted(found.items()))
    )
    words = st.none() | _words(limits.TITLE_LENGTH)
    return st.builds(
        Handout,
        words,
        words,
        st.none() | st.dates(date(2000, 1, 1), date(2099, 12, 31)).map(str),
        st.lists(st.sampled_from(CONCERNS), unique=True).map(tuple),
        listed.map(lambda found: (Day(None, found),)) | week,
    )
