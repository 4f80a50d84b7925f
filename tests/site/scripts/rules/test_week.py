"""Counting and timing a week.

Outside values: direct sets count one and indirect ones half (Pelland et al. 2026, doi 10.1007/s40279-025-02344-w, abstract of the
preprint: the "fractional" way of counting fitted best); ten sets a week open the highest class of Schoenfeld et al. 2017
(doi 10.1080/02640414.2016.1210197, abstract: under five, five to nine, ten and more) and are the figure of Currier et al. 2026, read
second-hand. Times are arithmetic by hand.
"""

from __future__ import annotations

from typing import Any

import pytest
import shipped_made
from hypothesis import given
from hypothesis import strategies as st
from script_rules import week as rules
from worlds import IDS, Days, entry, exercise, published, weeks, worlds

from build_tools.catalog.entries import Programme
from build_tools.planning import plan
from build_tools.planning.facts import ExerciseFacts

WICK, BASE = "lamp/wick", "lamp/base"
MUSCLES = {"lamp": {"parts": [WICK, BASE]}, "hook": {"parts": ["hook/eye"]}}
TIMES = {"change": 90, "warm_up": 480, "repetition": 3, "rest": 120}


@pytest.fixture(scope="module")
def programme() -> Programme:
    found = shipped_made.catalog().programme
    assert found
    return found.data


def made(*exercises: ExerciseFacts) -> dict[str, Any]:
    return published(exercises)


def sets(number: int, id: str = "a") -> Days:
    return [[entry(id, number, "8")]]


def weekly(programme: Programme, goal: str) -> dict[str, Any]:
    """The range of weekly sets as the scripts have it."""
    dose = programme.goals[goal].weekly_sets  # type: ignore[index]
    return {
        end: value for end, value in (("low", dose.low), ("high", dose.high)) if value is not None
    }


def warned(days: Days, known: dict[str, Any], range: dict[str, Any]) -> list[dict[str, Any]]:
    found = rules.countMuscles(days, known, MUSCLES)
    warnings: list[dict[str, Any]] = rules.warnings(
        days, found, known, {"weekly_sets": range, "weekly_sessions": {"low": 2}}
    )
    return warnings


def test_direct_and_indirect_sets_count_as_published(programme: Programme) -> None:
    assert (programme.credits.direct.value, programme.credits.indirect.value) == (1, 0.5)
    days = [[entry("a", 4, "5"), entry("b", 3, "8-12")], [], [entry("b", 3, "8-12")]]
    found = rules.count(
        days,
        made(exercise("a", credits={WICK: 1.0, BASE: 0.5}), exercise("b", credits={WICK: 0.5})),
    )
    assert found == {BASE: {"sets": 2, "days": []}, WICK: {"sets": 7, "days": [0]}}


def test_ten_sets_are_the_published_class(programme: Programme) -> None:
    """Only what stands out is remarked on: at most half of the range, or half as much again (our choice, common practice)."""
    range = weekly(programme, "growth")
    assert range == {"low": 10, "high": 20}

    def told(number: int) -> list[str]:
        return [one["kind"] for one in warned(sets(number), made(exercise("a")), range)]

    assert [told(n) for n in (5, 6, 10, 20, 29, 30)] == [["below"], [], [], [], [], ["above"]]
    standing = [rules.standing("lamp", {"sets": n, "days": [0]}, range) for n in (9, 10, 20, 21)]
    assert standing == ["below", "within", "within", "above"]


def test_a_muscle_counts_no_set_twice() -> None:
    """By hand: three sets that train both parts are three sets of the muscle, not six; helping sets stand apart."""
    known = made(
        exercise("a", credits={WICK: 1.0, BASE: 1.0}),
        exercise("b", credits={BASE: 0.5}),
        exercise("c", credits={WICK: 0.5, BASE: 1.0, "hook/eye": 0.5}),
    )
    days = [[entry("a", 3, "8"), entry("b", 4, "8")], [], [entry("c", 2, "8")]]
    assert rules.countMuscles(days, known, MUSCLES) == {
        "lamp": {
            "direct": 5,
            "helping": 4,
            "sets": 7,
            "days": [0, 2],
            "each": [3, 0, 2, 0, 0, 0, 0],
            "parts": {WICK: 4, BASE: 7},
        },
        "hook": {
            "direct": 0,
            "helping": 2,
            "sets": 1,
            "days": [],
            "each": [0] * 7,
            "parts": {"hook/eye": 1},
        },
    }


@given(worlds(), weeks())
def test_a_muscle_lies_between_its_best_part_and_all_sets(
    facts: dict[str, ExerciseFacts], days: Days
) -> None:
    known = published(facts.values())
    found = rules.countMuscles(days, known, MUSCLES)
    whole = sum(one["sets"] for day in days for one in day)
    for held in found.values():
        assert max(held["parts"].values()) <= held["sets"] <= whole
        assert held["direct"] <= held["sets"] <= held["direct"] + held["helping"]
    days = (
        [[entry("a-curl", 1, "8")], *days[1:]]
        if not days[0]
        else [[*days[0], days[0][0]], *days[1:]]
    )
    after = rules.countMuscles(days, known, MUSCLES)
    assert all(after[muscle]["sets"] >= held["sets"] for muscle, held in found.items())
    turned = rules.countMuscles(days[::-1], known, MUSCLES)
    assert {muscle: held["sets"] for muscle, held in turned.items()} == {
        muscle: held["sets"] for muscle, held in after.items()
    }


def test_a_goal_without_an_upper_end_has_nothing_to_exceed(programme: Programme) -> None:
    assert programme.goals["strength"].weekly_sets.high is None
    days = [[entry("a", 20, "5")] if day in (0, 2) else [] for day in range(7)]
    assert warned(days, made(exercise("a")), weekly(programme, "strength")) == []


def test_what_only_helps_is_not_held_against_the_range(programme: Programme) -> None:
    assert (
        warned(sets(2), made(exercise("a", credits={WICK: 0.5})), weekly(programme, "growth")) == []
    )
    assert rules.standing(WICK, {"sets": 1, "days": []}, weekly(programme, "growth")) == "helper"


def test_a_muscle_may_have_a_range_of_its_own() -> None:
    """``muscles`` of a dose, by hand: the wick's muscle begins at 4 where the goal begins at 10."""
    range = {"low": 10, "high": 20, "muscles": {"lamp": {"low": 4, "high": 12}}}
    assert [
        rules.standing(part, {"sets": 5, "days": [0]}, range) for part in (WICK, "hook/eye")
    ] == ["within", "below"]
    assert [one["bound"] for one in warned(sets(18), made(exercise("a")), range)] == [12]
    assert [one["bound"] for one in warned(sets(2), made(exercise("a")), range)] == [4]


def test_what_an_accessory_begins_with_by_hand() -> None:
    """Two days at the least: no more than half of the low end goes to one day, and never more than the high end leaves."""
    doses = {"weekly_sets": {"low": 10, "high": 20}, "weekly_sessions": {"low": 2}}
    assert [rules.toAdd(WICK, held, doses) for held in (0, 7, 9.5, 10, 18.5, 20, 30)] == [
        5,
        3,
        1,
        5,
        1,
        1,
        1,
    ]
    assert rules.toAdd(WICK, 40, {"weekly_sets": {"low": 10}, "weekly_sessions": {"low": 2}}) == 5
    # Spread over several days: what lacks is rounded up, what is left rounded down.
    assert [rules.toAdd(WICK, 0, doses, days) for days in (0, 1, 2, 3, 7)] == [5, 5, 5, 4, 2]
    assert [rules.toAdd(WICK, 15, doses, days) for days in (1, 2, 3, 7)] == [5, 2, 1, 1]


def test_an_accessory_joins_the_end_of_the_day_that_was_asked_for() -> None:
    days = [[entry("a", 4, "5")], [], [entry("a", 4, "5")], [], [], [], []]
    take = {"exercise": "b", "days": [2], "sets": 3, "repetitions": "8-12", "left": 2}
    found = rules.added(days, [take], 20)
    assert found == [*days[:2], [*days[2], entry("b", 3, "8-12", left=2)], *days[3:]]


def test_what_a_day_holds_already_gets_more_sets_up_to_the_limit_of_a_row() -> None:
    days = [[entry("a", 4, "5", load="20 kg")], [], [], [], [], [], []]
    take = {"exercise": "a", "days": [0, 3], "sets": 3, "repetitions": "8-12", "left": 2}
    found = rules.added(days, [take], 6)
    assert found[0] == [entry("a", 6, "5", load="20 kg")]
    assert found[3] == [entry("a", 3, "8-12", left=2)]


def test_one_lift_in_place_of_another_keeps_its_sets_and_no_load_or_note() -> None:
    done = {"sets": 3, "repetitions": 5, "load": None, "left": None}
    days = [[entry("a", 4, "5", rest=90), entry("b", 3, "8", load="20 kg", note="n", done=done)]]
    take = {"exercise": "c", "days": [], "sets": 2, "repetitions": "8-12", "instead": "b"}
    found = rules.added([*days, *[[]] * 6], [take], 20)
    assert found == [[entry("a", 4, "5", rest=90), entry("c", 3, "8")], *[[]] * 6]


def test_hard_days_in_a_row_and_accessories_before_main_lifts(programme: Programme) -> None:
    """Ten sets over two days make five a hard day; the week comes round, so Sunday and Monday are in a row."""
    known = made(
        exercise("a", credits={WICK: 1.0}), exercise("m", credits={"hook/eye": 1.0}, main=True)
    )

    def told(sunday: int) -> list[Any]:
        one, two, last = entry("a", 6, "8"), entry("m", 12, "5"), entry("a", sunday, "8")
        days = [[one, one, two], [], [], [], [], [], [last]]
        return [
            (w["kind"], w["muscles"], w["days"], w["exercises"])
            for w in warned(days, known, weekly(programme, "growth"))
        ]

    accessory = ("accessory-first", [], [0], ["a", "m"])  # once a day, though two rows stand before
    assert told(5) == [("consecutive", ["lamp"], [6, 0], []), accessory]
    assert told(4) == [accessory]


def test_helping_sets_alone_never_make_too_many(programme: Programme) -> None:
    """What helping sets count is a convention, so only direct ones are held against the upper end."""
    range = weekly(programme, "growth")
    known = made(exercise("a"), exercise("b", credits={WICK: 0.5}))
    helped = [[entry("a", 12, "8")], [], [entry("b", 20, "8"), entry("b", 20, "8")]]
    assert warned(helped, known, range) == []
    assert [one["kind"] for one in warned(sets(30), known, range)] == ["above"]


def test_the_time_of_a_day_by_hand() -> None:
    known = made(exercise("a"), exercise("b", sides="one"))
    day = [entry("a", 3, "8-12", rest=60), entry("b", 2, "10"), entry("a", 1, "30s", rest=0)]
    # 480 + 2 x 90, then 3 (12 x 3 + 60), 2 (10 x 3 x 2 + 120), 30
    assert rules.duration(day, known, TIMES) == 480 + 180 + 288 + 360 + 30
    assert rules.duration([], known, TIMES) == 0


def test_times_come_from_the_programme(programme: Programme) -> None:
    # catalog/programme.yaml: 90 and 480 s; 2 to 4 s a repetition; rests of 60 to 180 and 120 to 300 s
    assert plan.seconds(programme, "growth") == plan.Seconds(90, 480, 3, 120)
    assert plan.seconds(programme, "strength") == plan.Seconds(90, 480, 3, 210)


@given(
    worlds(), weeks(), st.integers(0, 6), st.sampled_from(IDS), st.randoms(use_true_random=False)
)
def test_what_always_holds(
    facts: dict[str, ExerciseFacts], days: Days, day: int, id: str, random: object
) -> None:
    known = published(facts.values())
    before = rules.count(days, known)
    shuffled = [list(entries) for entries in days]
    for entries in shuffled:
        random.shuffle(entries)  # type: ignore[attr-defined]
    assert rules.count(shuffled, known) == before, "the order within a day must not matter"
    assert rules.duration(shuffled[day], known, TIMES) == pytest.approx(
        rules.duration(days[day], known, TIMES)
    )
    shuffled[day].append(entry(id, 1, "8"))
    after = rules.count(shuffled, known)
    for part in after:
        held = before.get(part, {"sets": 0, "days": []})
        assert after[part]["sets"] == held["sets"] + facts[id].credits.get(part, 0) and set(
            after[part]["days"]
        ) >= set(held["days"])
    assert before.keys() <= after.keys()
    assert rules.duration(shuffled[day], known, TIMES) > rules.duration(days[day], known, TIMES)
