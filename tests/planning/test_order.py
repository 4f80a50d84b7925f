"""The order of exercises: each rule by a case made for it, and what must hold whatever the evidence.

No published table orders exercises so; the rules are the handbook's own. Checked against them from outside is only that statements
keep what the conclusions say (test_planner_data.py).
"""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter

from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, PARTS, ahead, evidence, exercise, length, worlds

from build_tools.planning.facts import ExerciseFacts
from build_tools.planning.order import Orders, Tie
from build_tools.planning.preferences import KINDS, Preference

WICK = "lamp/wick"


def placed(
    statements: list[Preference], **changed: ExerciseFacts
) -> list[tuple[str, tuple[str, ...]]]:
    ids = sorted({id for s in statements for id in (s.first, s.second)} | set(changed))
    made = {id: changed.get(id) or exercise(id) for id in ids}
    return [(place.kind, place.exercises) for place in Orders(made, statements, 0.1).of(WICK)]


def test_growth_goes_before_activation_however_sure() -> None:
    sure = ahead("b", "c", "activation", verdict="shown", certainty="high")
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


def test_the_part_before_its_muscle_then_shown_before_leaning_then_certainty() -> None:
    told = [
        ahead("d", "z", part="lamp", verdict="shown", certainty="high"),
        ahead("c", "z", certainty="very low"),
        ahead("b", "z"),
        ahead("a", "z", verdict="shown", certainty="very low"),
    ]
    assert placed(told) == [
        ("growth", ("a",)),
        ("growth", ("b",)),
        ("growth", ("c",)),
        ("growth", ("d",)),
        ("none", ("z",)),
    ]


def test_who_came_out_behind_stands_below_whatever_else_speaks_for_it() -> None:
    told = [
        ahead("a", "b", certainty="very low"),
        ahead("b", "z", verdict="shown", certainty="high"),
    ]
    assert placed(told) == [("growth", ("a",)), ("growth", ("b",)), ("none", ("z",))]


def test_a_circle_settles_nothing() -> None:
    assert placed([ahead("a", "b"), ahead("b", "c"), ahead("c", "a")]) == [
        ("growth", ("a", "b", "c"))
    ]


def test_no_difference_puts_nobody_ahead() -> None:
    assert placed([ahead("a", "b", leads=False)]) == [("none", ("a", "b"))]


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
        kinds = [KINDS.index(place.kind) for place in places]
        assert kinds == sorted(kinds)
        for kind in ("growth", "activation"):
            _keeps_results(kind, part, places, told)


def _keeps_results(kind: str, part: str, places: list[Tie], told: list[Preference]) -> None:
    rank = {id: n for n, place in enumerate(places) if place.kind == kind for id in place.exercises}
    behind: dict[str, set[str]] = {}
    for s in told:
        if (
            s.kind == kind
            and s.ahead
            and s.part in (part, "lamp")
            and {s.first, s.second} <= set(rank)
        ):
            behind.setdefault(s.second, set()).add(s.first)
    try:
        TopologicalSorter(behind).prepare()
    except CycleError:
        return
    assert all(rank[first] < rank[second] for second, firsts in behind.items() for first in firsts)
