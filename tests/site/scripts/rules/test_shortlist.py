"""Short lists: each rule by a case made for it, and what must hold for any wish. The rules are the handbook's own."""

from __future__ import annotations

from typing import Any

import script_rules
from hypothesis import given
from hypothesis import strategies as st
from worlds import (
    THINGS,
    WORRIES,
    Wish,
    ahead,
    evidence,
    exercise,
    length,
    planner,
    wish,
    wishes,
    worlds,
)

from build_tools.evidence_map.preferences import Preference
from build_tools.planning.facts import ExerciseFacts

WICK, SHADE, BASE = "lamp/wick", "lamp/shade", "lamp/base"


def answer(asked: Wish, statements: list[Preference], *exercises: ExerciseFacts) -> dict[str, Any]:
    return script_rules.shortlist.shortlist(
        planner({one.id: one for one in exercises}, statements), asked
    )


def proposed(found: dict[str, Any]) -> list[str]:
    return [proposal["exercise"] for proposal in found["proposals"]]


def test_main_lifts_and_what_the_week_holds_are_not_proposed() -> None:
    made = [exercise("main", main=True), exercise("held"), exercise("free", load="band")]
    found = answer(wish(WICK, week=["held"]), [ahead("main", "free"), ahead("held", "free")], *made)
    assert found["options"] == {WICK: [{"kind": "none", "exercises": ["free"]}]}
    assert proposed(found) == ["free"] and found["proposals"][0]["differences"] == [
        {"other": "held", "ways": ["load"]}
    ]


def test_equipment_and_concerns_are_kept() -> None:
    made = [
        exercise("a", equipment=frozenset({"crate"})),
        exercise("b", concerns=frozenset({"knee"})),
        exercise("c"),
    ]
    assert proposed(answer(wish(WICK, concerns=["knee"]), [], *made)) == ["c"]


def test_the_second_is_the_next_that_differs_and_length_counts_first() -> None:
    first = exercise("a", lengths={WICK: length(0.9)}, joints={WICK: "hip"})
    same, load = exercise("b", lengths={WICK: length(0.8)}), exercise("c", load="machine")
    short = exercise("d", lengths={WICK: length(0.1)})
    assert proposed(
        answer(wish(WICK), [ahead("a", "x")], first, same, load, short, exercise("x"))
    ) == ["a", "d"]
    # b stands above c and d, but nothing tells it from a.
    told = [ahead("a", "b"), ahead("b", "x", "activation")]
    assert proposed(answer(wish(WICK), told, first, same, load, exercise("x"))) == ["a", "c"]


def test_nothing_is_proposed_twice_for_the_sake_of_two() -> None:
    assert proposed(answer(wish(WICK), [ahead("a", "b")], exercise("a"), exercise("b"))) == ["a"]


def test_several_parts_share_the_two_places() -> None:
    both = exercise("both", credits={WICK: 1.0, SHADE: 1.0})
    made = [
        exercise("wick"),
        both,
        exercise("shade", credits={SHADE: 1.0}),
        exercise("base", credits={BASE: 1.0}),
    ]
    assert proposed(answer(wish(WICK, SHADE, BASE), [], *made)) == ["both", "base"]
    assert proposed(answer(wish(WICK, SHADE), [ahead("wick", "both")], *made)) == ["wick", "both"]


def test_of_a_tie_what_costs_least_goes_first() -> None:
    dear = exercise("a", credits={WICK: 1.0, BASE: 1.0}, load="band")
    found = answer(wish(WICK, sets=4), [], dear, exercise("b", credits={WICK: 1.0, BASE: 0.5}))
    assert [(p["exercise"], p["costs"], p["tied"]) for p in found["proposals"]] == [
        ("b", {BASE: 2.0}, True),
        ("a", {BASE: 4.0}, True),
    ]


def test_what_to_relax() -> None:
    made = {
        one.id: one
        for one in (
            exercise("a", equipment=frozenset({"crate"})),
            exercise("b", equipment=frozenset({"crate"}), concerns=frozenset({"knee"})),
            exercise("c", equipment=frozenset({"post"})),
            exercise("d", concerns=frozenset({"knee"})),
            exercise("e"),
            exercise("f", main=True),
        )
    }
    found = script_rules.shortlist.relaxed(
        planner(made, []), wish(WICK, concerns=["knee"], week=["e"]), WICK
    )
    assert found == {
        "equipment": [["crate", 1], ["post", 1]],
        "concerns": [["knee", 1]],
        "week": 1,
        "main": 1,
    }


@given(worlds(), evidence(), wishes(), st.sampled_from(THINGS), st.sampled_from(WORRIES))
def test_what_always_holds(
    made: dict[str, ExerciseFacts], told: list[Preference], asked: Wish, thing: str, worry: str
) -> None:
    data = planner(made, told)

    def options(one: Wish) -> dict[str, set[str]]:
        found = script_rules.shortlist.shortlist(data, one)["options"]
        return {
            part: {id for place in places for id in place["exercises"]}
            for part, places in found.items()
        }

    def kit(things: set[str]) -> Wish:
        return {**asked, "equipment": sorted(things)}

    found, all_fit, at_hand = (
        script_rules.shortlist.shortlist(data, asked),
        options(asked),
        set(asked["equipment"]),
    )
    fewer, warier = (
        options(kit(at_hand - {thing})),
        options({**asked, "concerns": sorted({*asked["concerns"], worry})}),
    )
    assert all(
        fewer[part] <= all_fit[part] and warier[part] <= all_fit[part] for part in asked["parts"]
    )
    ids = proposed(found)
    assert len(ids) == len(set(ids)) <= 2
    for id in ids:
        one = made[id]
        assert (
            not one.main
            and id not in asked["week"]
            and one.equipment <= at_hand
            and not one.concerns & set(asked["concerns"])
        )
    assert bool(ids) == any(all_fit.values())
    for proposal in found["proposals"]:
        assert proposal["exercise"] in all_fit[proposal["part"]] and not proposal[
            "costs"
        ].keys() & set(asked["parts"])
    for part in asked["parts"]:
        gains = dict(script_rules.shortlist.relaxed(data, asked, part)["equipment"])
        assert gains.get(thing, 0) == len(options(kit(at_hand | {thing}))[part] - all_fit[part])
