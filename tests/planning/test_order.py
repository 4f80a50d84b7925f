"""The order of exercises: each rule by a case made for it, and what must hold whatever the evidence.

No published table orders exercises so; the rules are the handbook's own. Checked against them from outside is only that statements
keep what the conclusions say (test_planner_data.py).
"""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, PARTS, ahead, evidence, exercise, length, worlds

from build_tools.evidence_map.preferences import Preference
from build_tools.planning.facts import ExerciseFacts
from build_tools.planning.order import PLACES, Orders, PlaceKind, Tie

WICK = "lamp/wick"


def placed(
    statements: list[Preference], **changed: ExerciseFacts
) -> list[tuple[str, tuple[str, ...]]]:
    ids = sorted({id for s in statements for id in (s.first, s.second)} | set(changed))
    made = {id: changed.get(id) or exercise(id) for id in ids}
    return [(place.kind, place.exercises) for place in Orders(made, statements, 0.1).of(WICK)]


def test_growth_goes_before_activation_however_sure() -> None:
    sure = ahead("b", "c", "activation", finding="found", certainty="high")
    assert placed(
        [ahead("a", "d", certainty="very low"), sure, ahead("d", "c", "taught", certainty=None)]
    ) == [("growth", ("a",)), ("activation", ("b",)), ("taught", ("d",)), ("none", ("c",))]


def test_length_under_load_goes_between_activation_and_common_teaching() -> None:
    long, mean = (
        exercise("l", lengths={WICK: length(0.9)}),
        exercise("m", lengths={WICK: length(0.9, hard=False)}),
    )
    assert placed(
        [ahead("a", "z", "activation"), ahead("t", "z", "taught", certainty=None)], l=long, m=mean
    ) == [("activation", ("a",)), ("length", ("l",)), ("taught", ("t",)), ("none", ("m", "z"))]


def test_lengths_within_the_margin_are_a_tie() -> None:
    made = {
        id: exercise(id, lengths={WICK: length(share)})
        for id, share in (("p", 0.95), ("q", 0.86), ("r", 0.7))
    }
    assert placed([], **made) == [("length", ("p", "q")), ("length", ("r",))]


def test_the_part_before_its_muscle_then_found_before_hinted_then_certainty() -> None:
    told = [
        ahead("d", "z", part="lamp", finding="found", certainty="high"),
        ahead("c", "z", certainty="very low"),
        ahead("b", "z"),
        ahead("a", "z", finding="found", certainty="very low"),
    ]
    assert placed(told) == [
        ("growth", ("a",)),
        ("growth", ("b",)),
        ("growth", ("c",)),
        ("growth-wider", ("d",)),
        ("none", ("z",)),
    ]


@pytest.mark.parametrize(
    "wide", [{"measured": "together"}, {"measured": "whole"}, {"part": "lamp"}], ids=str
)
def test_what_was_measured_alone_goes_before_anything_wider(wide: dict[str, str]) -> None:
    sure = ahead("b", "z", finding="found", certainty="high", **wide)
    assert placed([ahead("a", "z", certainty="very low"), sure]) == [
        ("growth", ("a",)),
        ("growth-wider", ("b",)),
        ("none", ("z",)),
    ]
    # Nor does it push below itself what it came out ahead of: that has a result of its own.
    over = ahead("b", "a", finding="found", certainty="high", **wide)
    assert placed([ahead("a", "z", certainty="very low"), over])[:2] == [
        ("growth", ("a",)),
        ("growth-wider", ("b",)),
    ]


@pytest.mark.parametrize("kind", ["growth", "activation"])
@pytest.mark.parametrize(
    "wide", [{"measured": "together"}, {"measured": "whole"}, {"part": "lamp"}], ids=str
)
def test_nothing_wider_recommends_against_the_parts_own_null(
    kind: Literal["growth", "activation"], wide: dict[str, Any]
) -> None:
    muscle = ahead("a", "b", kind, finding="found", certainty="high", **wide)
    own = ahead("b", "a", kind, leads=False)
    assert placed([muscle]) == [(f"{kind}-wider", ("a",)), ("none", ("b",))]
    assert placed([muscle, own]) == [("measured" if kind == "growth" else "none", ("a", "b"))]
    # A null of the other kind, of another pair, or that nobody tested says nothing of it.
    other = "activation" if kind == "growth" else "growth"
    made = {id: exercise(id) for id in "abc"}
    place: PlaceKind = "growth-wider" if kind == "growth" else "activation-wider"
    for aside in (
        ahead("b", "a", other, leads=False),
        ahead("a", "c", kind, leads=False),
        ahead("a", "b", kind, leads=False, finding="not studied"),
    ):
        assert Orders(made, [muscle, aside], 0.1).best("a", WICK, place) == muscle


def test_a_wider_measurement_is_not_asked_where_the_part_points_the_other_way() -> None:
    muscle = ahead("a", "b", part="lamp", finding="found", certainty="high")
    assert placed([muscle, ahead("b", "a", certainty="very low")]) == [
        ("growth", ("b",)),
        ("none", ("a",)),
    ]


def test_who_came_out_behind_stands_below_whatever_else_speaks_for_it() -> None:
    told = [
        ahead("a", "b", certainty="very low"),
        ahead("b", "z", finding="found", certainty="high"),
    ]
    assert placed(told) == [("growth", ("a",)), ("growth", ("b",)), ("none", ("z",))]


def test_a_circle_settles_nothing() -> None:
    assert placed([ahead("a", "b"), ahead("b", "c"), ahead("c", "a")]) == [
        ("growth", ("a", "b", "c"))
    ]


def test_a_null_on_the_part_is_a_place_of_its_own_and_puts_nobody_ahead() -> None:
    null = ahead("a", "b", leads=False)
    assert placed([null]) == [("measured", ("a", "b"))]
    assert placed([null, ahead("c", "d", part="lamp"), ahead("e", "d")]) == [
        ("growth", ("e",)),
        ("measured", ("a", "b")),
        ("growth-wider", ("c",)),
        ("none", ("d",)),
    ]
    # Who came out behind on the part, or was compared with what does not train it, is not merely measured.
    assert placed([null, ahead("c", "a")]) == [
        ("growth", ("c",)),
        ("measured", ("b",)),
        ("none", ("a",)),
    ]
    elsewhere = exercise("b", credits={"lamp/shade": 1.0})
    assert placed([null], b=elsewhere) == [("none", ("a",))]
    for silent in (
        ahead("a", "b", leads=False, finding="not studied"),
        ahead("a", "b", leads=False, measured="whole"),
        ahead("a", "b", "activation", leads=False),
    ):
        assert placed([silent]) == [("none", ("a", "b"))]


@given(worlds(), evidence(), st.randoms(use_true_random=False))
def test_what_always_holds(
    made: dict[str, ExerciseFacts], told: list[Preference], random: object
) -> None:
    orders = Orders(made, told, 0.1)
    shuffled = list(told)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    other = Orders(dict(reversed(made.items())), shuffled, 0.1)
    for part in PARTS:
        places = orders.of(part)
        assert places == other.of(part), "the order in which things are given must not matter"
        listed = [id for place in places for id in place.exercises]
        assert sorted(listed) == sorted(id for id in IDS if part in made[id].direct), (
            "each once, and nobody else"
        )
        kinds = [PLACES.index(place.kind) for place in places]
        assert kinds == sorted(kinds)
        for kind in ("growth", "activation"):
            _keeps_results(kind, part, places, told)


def _keeps_results(kind: str, part: str, places: list[Tie], told: list[Preference]) -> None:
    for of in (kind, f"{kind}-wider"):
        _keeps_results_of(of, kind, part, places, told)


def _keeps_results_of(
    of: str, kind: str, part: str, places: list[Tie], told: list[Preference]
) -> None:
    rank = {id: n for n, place in enumerate(places) if place.kind == of for id in place.exercises}
    # From the nearest to the widest: of each pair, the first that says anything speaks.
    spoken: dict[frozenset[str], list[Preference]] = {}
    for at, measured in (
        *((part, measured) for measured in ("part", "together", "whole")),
        *(("lamp", measured) for measured in ("part", "together", "whole")),
    ):
        said = [s for s in told if (s.kind, s.part, s.measured) == (kind, at, measured)]
        for s in said:
            spoken.setdefault(frozenset((s.first, s.second)), [s])
    behind: dict[str, set[str]] = {}
    for [s] in spoken.values():
        if s.ahead and {s.first, s.second} <= set(rank):
            behind.setdefault(s.second, set()).add(s.first)
    try:
        TopologicalSorter(behind).prepare()
    except CycleError:
        return
    assert all(rank[first] < rank[second] for second, firsts in behind.items() for first in firsts)
