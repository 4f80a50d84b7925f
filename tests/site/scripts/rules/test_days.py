"""The days of a handout. Outside check: Python's ``datetime`` on weekdays."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st
from script_rules import days

DAYS = st.integers(0, 6)


@given(st.datetimes(datetime(2000, 1, 2), datetime(2098, 12, 30)))
def test_a_weekday(when: datetime) -> None:
    assert days.weekday(when.replace(hour=12)) == when.weekday()


@given(st.sets(DAYS, min_size=1), st.datetimes(datetime(2000, 1, 2), datetime(2098, 12, 30)))
def test_days_stand_as_they_come(found: set[int], today: datetime) -> None:
    week = [(today + timedelta(n)).weekday() for n in range(7)]
    ordered = days.upcoming([{"day": day} for day in sorted(found)], today.weekday())
    assert [each["day"] for each in ordered] == [day for day in week if day in found]


def test_a_day_without_a_name_stands_alone() -> None:
    assert days.upcoming([{"day": None, "items": []}], 3) == [{"day": None, "items": []}]


@given(st.sets(DAYS))
def test_a_free_day(taken: set[int]) -> None:
    assert days.free(sorted(taken)) == min(set(range(7)) - taken, default=None)
