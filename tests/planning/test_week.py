"""Counting and timing a week.

Outside values: direct sets count one and indirect ones half (Pelland et al. 2026, doi 10.1007/s40279-025-02344-w, abstract of the
preprint: the "fractional" way of counting fitted best); ten sets a week open the highest class of Schoenfeld et al. 2017
(doi 10.1080/02640414.2016.1210197, abstract: under five, five to nine, ten and more) and are the figure of Currier et al. 2026, read
second-hand. Times are arithmetic by hand.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, exercise, weeks, worlds

from build_tools.catalog.entries import Programme
from build_tools.catalog.load import load
from build_tools.planning.facts import ExerciseFacts
from build_tools.planning.repetitions import Repetitions
from build_tools.planning.warnings import Warning, warnings
from build_tools.planning.week import Count, Entry, Seconds, Week, count, duration, seconds

WICK, BASE = "lamp/wick", "lamp/base"
TIMES = Seconds(change=90, warm_up=480, repetition=3, rest=120)


@pytest.fixture(scope="module")
def programme() -> Programme:
    found = load(Path(__file__).parents[2] / "catalog").programme
    assert found
    return found.data


def made(*exercises: ExerciseFacts) -> dict[str, ExerciseFacts]:
    return {one.id: one for one in exercises}


def sets(number: int, id: str = "a") -> Week:
    return Week(((Entry(id, number, "8"),),))


def test_direct_and_indirect_sets_count_as_published(programme: Programme) -> None:
    assert (programme.credits.direct.value, programme.credits.indirect.value) == (1, 0.5)
    week = Week(((Entry("a", 4, "5"), Entry("b", 3, "8-12")), (), (Entry("b", 3, "8-12"),)))
    found = count(week, made(exercise("a", credits={WICK: 1.0, BASE: 0.5}), exercise("b", credits={WICK: 0.5})))
    assert found == {BASE: Count(2.0, ()), WICK: Count(7.0, (0,))}


def test_ten_sets_are_the_published_class(programme: Programme) -> None:
    def told(number: int) -> list[str]:
        known = made(exercise("a"))
        return [w.kind for w in warnings(sets(number), count(sets(number), known), known, programme.goals["growth"])]

    assert [told(n) for n in (9, 10, 20)] == [["below"], [], []]
    assert told(21) == ["above"]


def test_a_goal_without_an_upper_end_has_nothing_to_exceed(programme: Programme) -> None:
    assert programme.goals["strength"].weekly_sets.high is None
    week, known = Week(tuple((Entry("a", 20, "5"),) if day in (0, 2) else () for day in range(7))), made(exercise("a"))
    assert warnings(week, count(week, known), known, programme.goals["strength"]) == []


def test_what_only_helps_is_not_held_against_the_range(programme: Programme) -> None:
    known = made(exercise("a", credits={WICK: 0.5}))
    assert warnings(sets(2), count(sets(2), known), known, programme.goals["growth"]) == []


def test_days_in_a_row_and_accessories_before_main_lifts(programme: Programme) -> None:
    known = made(exercise("a", credits={WICK: 1.0}), exercise("m", credits={BASE: 1.0}, main=True))
    one, two = Entry("a", 6, "8"), Entry("m", 12, "5")
    week = Week(((one, two), (), (), (), (), (), (one,)))
    assert warnings(week, count(week, known), known, programme.goals["growth"]) == [
        Warning("consecutive", (WICK,), days=(6, 0)), Warning("accessory-first", days=(0,), exercises=("a", "m"))]


def test_the_time_of_a_day_by_hand() -> None:
    known = made(exercise("a"), exercise("b", sides="one"))
    day = (Entry("a", 3, "8-12", rest=60), Entry("b", 2, "10"), Entry("a", 1, "30s", rest=0))
    # 480 + 2 x 90, then 3 (12 x 3 + 60), 2 (10 x 3 x 2 + 120), 30
    assert duration(day, known, TIMES) == 480 + 180 + 288 + 360 + 30
    assert duration((), known, TIMES) == 0


def test_times_come_from_the_programme(programme: Programme) -> None:
    # catalog/programme.yaml: 90 and 480 s; 2 to 4 s a repetition; rests of 60 to 180 and 120 to 300 s
    assert seconds(programme, "growth") == Seconds(90, 480, 3, 120) and seconds(programme, "strength") == Seconds(90, 480, 3, 210)


@pytest.mark.parametrize(("text", "read"), [("8", Repetitions(8, 8)), ("8-12", Repetitions(8, 12)), ("20-40s", Repetitions(20, 40, True))])
def test_repetitions(text: str, read: Repetitions) -> None:
    assert Repetitions.read(text) == read


@pytest.mark.parametrize("text", ["", "0", "12-8", "8-8", "8 - 12", "eight", "8-10-12", "1000", "8ss"])
def test_no_repetitions(text: str) -> None:
    with pytest.raises(ValueError, match="write 8, 8-12, or 30s"):
        Repetitions.read(text)


@given(worlds(), weeks(), st.integers(0, 6), st.sampled_from(IDS), st.randoms(use_true_random=False))
def test_what_always_holds(known: dict[str, ExerciseFacts], week: Week, day: int, id: str, random: object) -> None:
    before = count(week, known)
    days = [list(entries) for entries in week.days]
    for entries in days:
        random.shuffle(entries)  # type: ignore[attr-defined]
    assert count(Week(tuple(map(tuple, days))), known) == before, "the order within a day must not matter"
    assert duration(tuple(days[day]), known, TIMES) == duration(week.days[day], known, TIMES)
    days[day].append(Entry(id, 1, "8"))
    after = count(Week(tuple(map(tuple, days))), known)
    for part in after:
        held = before.get(part, Count(0.0, ()))
        assert after[part].sets == held.sets + known[id].credits.get(part, 0.0) and set(after[part].days) >= set(held.days)
    assert before.keys() <= after.keys()
    more = replace(week, days=tuple(map(tuple, days)))
    assert duration(more.days[day], known, TIMES) > duration(week.days[day], known, TIMES)
