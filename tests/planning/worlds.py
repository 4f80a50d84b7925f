"""Invented exercises, weeks and wishes at random. No number here is advice."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

from hypothesis import strategies as st

from build_tools.evidence_map.lengths import WorkingLength
from build_tools.evidence_map.preferences import Preference
from build_tools.planning.facts import ExerciseFacts
from build_tools.planning.order import Orders

#: As the scripts have them: an exercise of a day, the days of a week, a wish, an answer.
Entry = dict[str, Any]
Days = list[list[Entry]]
Wish = dict[str, Any]

PARTS = tuple(f"lamp/{part}" for part in ("base", "shade", "wick"))
IDS = tuple(f"{letter}-curl" for letter in "abcdefgh")
THINGS, WORRIES = ("crate", "cable", "post"), ("knee", "balance")


def exercise(id: str, **given: object) -> ExerciseFacts:
    """An exercise for the wick that needs nothing, changed as given; `credits` of 1 are direct."""
    credits = given.pop("credits", {"lamp/wick": 1.0})
    assert isinstance(credits, dict)
    plain: dict[str, object] = {
        "name": id.replace("-", " ").capitalize(),
        "also": (),
        "address": f"exercises/{id}/",
        "equipment": frozenset(),
        "swaps": (),
        "position": "standing",
        "sides": "both",
        "main": False,
        "load": "cable",
        "joints": {},
        "credits": credits,
        "direct": frozenset(part for part, credit in credits.items() if credit == 1),
        "concerns": frozenset(),
        "lengths": {},
        "fraction": None,
    }
    return ExerciseFacts(id=id, **{**plain, **given})  # type: ignore[arg-type]


def length(share: float, hard: bool = True) -> WorkingLength:
    """A length whose word follows the outer thirds."""
    return WorkingLength(
        "long" if share >= 0.65 else "short" if share < 0.35 else "middle", share, hard
    )


def ahead(
    first: str,
    second: str,
    kind: str = "growth",
    part: str = "lamp/wick",
    finding: str = "hinted",
    certainty: str | None = "low",
    leads: bool = True,
    measured: str = "part",
) -> Preference:
    """A statement that puts the first exercise ahead of the second."""
    return Preference(
        kind,
        kind,
        part,
        first,
        second,
        first if leads else None,
        f"{first} over {second}.",  # type: ignore[arg-type]
        finding if leads or finding == "not studied" else "unclear",
        certainty,
        f"exercises/{first}/",
        measured,
    )  # type: ignore[arg-type]


# Strategies are made once: to make and check one costs more than to draw from it.


@cache
def _some(values: tuple[str, ...]) -> st.SearchStrategy[frozenset[str]]:
    return st.frozensets(st.sampled_from(values))


@cache
def _joints(parts: tuple[str, ...]) -> st.SearchStrategy[dict[str, str]]:
    return st.dictionaries(st.sampled_from(parts), st.sampled_from(["hip", "knee"]))


_CREDITS = st.dictionaries(st.sampled_from(PARTS), st.sampled_from([1.0, 0.5]), min_size=1)
_LENGTHS = st.dictionaries(
    st.sampled_from(PARTS), st.integers(0, 20).map(lambda n: length(n / 20)), max_size=3
)
_LOADS, _SIDES = st.sampled_from(["cable", "machine"]), st.sampled_from(["both", "one"])
_YES_OR_NO = st.booleans()
_PAIRS = st.lists(st.sampled_from(IDS), min_size=2, max_size=2, unique=True)
_HOW_MANY = st.integers(0, 14)
_KINDS = st.sampled_from(["growth", "activation", "taught"])
_PLACES = st.sampled_from([*PARTS, "lamp"])
_FINDINGS = st.sampled_from(["found", "hinted"])
_MEASURED = st.sampled_from(["part", "together", "whole"])
_CERTAINTIES = st.sampled_from(["high", "moderate", "low", "very low"])


@st.composite
def worlds(draw: st.DrawFn) -> dict[str, ExerciseFacts]:
    """Eight exercises."""
    made = {}
    for id in IDS:
        credits, lengths = draw(_CREDITS), draw(_LENGTHS)
        made[id] = exercise(
            id,
            credits=credits,
            equipment=draw(_some(THINGS)),
            concerns=draw(_some(WORRIES)),
            main=draw(_YES_OR_NO),
            lengths={part: found for part, found in lengths.items() if part in credits},
            load=draw(_LOADS),
            joints=draw(_joints(tuple(sorted(credits)))),
            sides=draw(_SIDES),
        )
    return made


@st.composite
def evidence(draw: st.DrawFn) -> list[Preference]:
    """Statements on any two exercises, circles included; one for each kind, part and pair."""
    made = {}
    for _ in range(draw(_HOW_MANY)):
        first, second = draw(_PAIRS)
        one = ahead(
            first,
            second,
            draw(_KINDS),
            draw(_PLACES),
            draw(_FINDINGS),
            draw(_CERTAINTIES),
            draw(_YES_OR_NO),
            draw(_MEASURED),
        )
        made[one.kind, one.part, frozenset((first, second))] = one
    return list(made.values())


def published(made: Iterable[ExerciseFacts]) -> dict[str, Any]:
    """Exercises by id as the scripts have them; sets are lists there."""
    return {
        one.id: {
            "name": one.name,
            "equipment": sorted(one.equipment),
            "concerns": sorted(one.concerns),
            "main": one.main,
            "load": one.load,
            "sides": one.sides,
            "joints": one.joints,
            "credits": one.credits,
            "direct": sorted(one.direct),
            "lengths": {
                part: {"word": found.word, "percent": found.percent, "hard": found.hard}
                for part, found in one.lengths.items()
            },
        }
        for one in made
    }


def planner(made: Mapping[str, ExerciseFacts], told: list[Preference]) -> dict[str, Any]:
    """Exercises and orders as the scripts have them."""
    orders = Orders(made, told, 0.1)
    return {
        "exercises": published(made.values()),
        "orders": {
            part: [
                {"kind": place.kind, "exercises": list(place.exercises)}
                for place in orders.of(part)
            ]
            for part in PARTS
        },
    }


def entry(
    exercise: str,
    sets: int,
    repetitions: str,
    left: int | None = None,
    rest: int | None = None,
    **more: Any,
) -> Entry:
    """One exercise of a day."""
    empty = dict.fromkeys(("load", "tempo", "note", "done"))
    given = {"sets": sets, "repetitions": repetitions, "left": left, "rest": rest}
    return {"exercise": exercise, **empty, **given, **more}


def wish(*parts: str, **changed: Any) -> Wish:
    """What a coach asks for: nothing at hand, nothing to take care of, an empty week; changed as given."""
    return {"parts": list(parts), "equipment": [], "concerns": [], "week": [], **changed}


def entries() -> st.SearchStrategy[Entry]:
    """Any exercise of a day."""
    return st.builds(
        entry,
        st.sampled_from(IDS),
        st.integers(1, 20),
        st.sampled_from(["8", "8-12", "30s", "20-40s"]),
        st.none() | st.integers(0, 10),
        st.none() | st.integers(0, 900),
        load=st.none() | st.sampled_from(["20 kg", "red band", "=1+1", "-10 kg"]),
        tempo=st.none() | st.just("3-1-1"),
        note=st.none() | st.text('aß," -', min_size=1, max_size=9),
        done=st.none() | _done(),
    )


def _done() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {
            "sets": st.integers(0, 20),
            "repetitions": st.none() | st.integers(0, 999),
            "load": st.none() | st.just("22.5 kg"),
            "left": st.none() | st.integers(0, 10),
        }
    )


def weeks() -> st.SearchStrategy[Days]:
    """Any week of seven days."""
    return st.lists(st.lists(entries(), max_size=4), min_size=7, max_size=7)


def wishes() -> st.SearchStrategy[Wish]:
    """Any wish for parts that something trains."""
    some = [_some(values).map(sorted) for values in (THINGS, WORRIES, IDS)]
    return st.fixed_dictionaries(
        {
            "parts": st.lists(st.sampled_from(PARTS), min_size=1, unique=True),
            "equipment": some[0],
            "concerns": some[1],
            "week": some[2],
        }
    )
