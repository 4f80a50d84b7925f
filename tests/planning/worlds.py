"""Invented exercises, weeks and wishes at random. No number here is advice."""

from __future__ import annotations

from hypothesis import strategies as st

from build_tools.planning.facts import ExerciseFacts, Length
from build_tools.planning.preferences import Statement
from build_tools.planning.shortlist import Wish
from build_tools.planning.week import Entry, Week

PARTS = tuple(f"lamp/{part}" for part in ("base", "shade", "wick"))
IDS = tuple(f"{letter}-curl" for letter in "abcdefgh")
THINGS, WORRIES = ("crate", "cable", "post"), ("knee", "balance")


def exercise(id: str, **given: object) -> ExerciseFacts:
    """An exercise for the wick that needs nothing, changed as given; `credits` of 1 are direct."""
    credits = given.pop("credits", {"lamp/wick": 1.0})
    assert isinstance(credits, dict)
    plain: dict[str, object] = {
        "name": id.replace("-", " ").capitalize(), "also": (), "address": f"exercises/{id}/", "equipment": frozenset(),
        "position": "standing", "sides": "both", "main": False, "load": "cable", "joints": {}, "credits": credits,
        "direct": frozenset(part for part, credit in credits.items() if credit == 1), "concerns": frozenset(), "lengths": {},
        "fraction": None}
    return ExerciseFacts(id=id, **{**plain, **given})  # type: ignore[arg-type]


def length(share: float, hard: bool = True) -> Length:
    """A length whose word follows the outer thirds."""
    return Length("long" if share >= 0.65 else "short" if share < 0.35 else "middle", share, hard)


def ahead(first: str, second: str, kind: str = "growth", part: str = "lamp/wick", verdict: str = "leaning", certainty: str | None = "low",
          leads: bool = True) -> Statement:
    """A statement that puts the first exercise ahead of the second."""
    return Statement(kind, kind, part, first, second, first if leads else None, f"{first} over {second}.",  # type: ignore[arg-type]
                     verdict, certainty, f"exercises/{first}/")  # type: ignore[arg-type]


def _some(values: tuple[str, ...]) -> st.SearchStrategy[frozenset[str]]:
    return st.frozensets(st.sampled_from(values))


@st.composite
def worlds(draw: st.DrawFn) -> dict[str, ExerciseFacts]:
    """Eight exercises."""
    made = {}
    for id in IDS:
        credits = draw(st.dictionaries(st.sampled_from(PARTS), st.sampled_from([1.0, 0.5]), min_size=1))
        lengths = draw(st.dictionaries(st.sampled_from(PARTS), st.integers(0, 20).map(lambda n: length(n / 20)), max_size=3))
        made[id] = exercise(
            id, credits=credits, equipment=draw(_some(THINGS)), concerns=draw(_some(WORRIES)), main=draw(st.booleans()),
            lengths={part: found for part, found in lengths.items() if part in credits}, load=draw(st.sampled_from(["cable", "machine"])),
            joints=draw(st.dictionaries(st.sampled_from(sorted(credits)), st.sampled_from(["hip", "knee"]))),
            sides=draw(st.sampled_from(["both", "one"])))
    return made


@st.composite
def evidence(draw: st.DrawFn) -> list[Statement]:
    """Statements on any two exercises, circles included; one for each kind, part and pair."""
    pairs = st.lists(st.sampled_from(IDS), min_size=2, max_size=2, unique=True)
    made = {}
    for _ in range(draw(st.integers(0, 14))):
        first, second = draw(pairs)
        one = ahead(first, second, draw(st.sampled_from(["growth", "activation", "taught"])), draw(st.sampled_from([*PARTS, "lamp"])),
                    draw(st.sampled_from(["shown", "leaning"])), draw(st.sampled_from(["high", "moderate", "low", "very low"])),
                    draw(st.booleans()))
        made[one.kind, one.part, frozenset((first, second))] = one
    return list(made.values())


def entries() -> st.SearchStrategy[Entry]:
    """Any exercise of a day."""
    return st.builds(Entry, st.sampled_from(IDS), st.integers(1, 20), st.sampled_from(["8", "8-12", "30s", "20-40s"]),
                     st.none() | st.integers(0, 10), st.none() | st.integers(0, 900))


def weeks() -> st.SearchStrategy[Week]:
    """Any week of seven days."""
    return st.lists(st.lists(entries(), max_size=4).map(tuple), min_size=7, max_size=7).map(lambda days: Week(tuple(days)))


def wishes() -> st.SearchStrategy[Wish]:
    """Any wish for parts that something trains."""
    return st.builds(Wish, st.lists(st.sampled_from(PARTS), min_size=1, unique=True).map(tuple), _some(THINGS), _some(WORRIES), _some(IDS),
                     st.integers(1, 6))
