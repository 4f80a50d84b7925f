"""The saved plan, its table and its calendar, read back by independent readers: Python's csv module and the icalendar library."""

from __future__ import annotations

import csv
import io
import json
from datetime import date, datetime

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, exercise, weeks

from build_tools.planning.plan_export import COLUMNS, calendar, table
from build_tools.planning.plan_file import BadPlan, Plan, read, write
from build_tools.planning.week import DAYS, Entry, Week

KNOWN = {id: exercise(id, name=f'{id}, "long"; back\\slash ąß' * 3) for id in IDS}
MONDAY, STAMP = date(2026, 11, 23), datetime(2026, 11, 25, 13, 0, 5)
ONE = Plan("growth", Week(((Entry("a-curl", 3, "8-12", 2, 90),), *([()] * 6))))


def plans() -> st.SearchStrategy[Plan]:
    return st.builds(Plan, st.sampled_from(["growth", "strength"]), weeks())


@given(plans())
def test_what_was_saved_is_opened(plan: Plan) -> None:
    assert read(write(plan), IDS) == plan


@given(plans())
def test_the_table_is_read_by_pythons_csv(plan: Plan) -> None:
    text = table(plan, KNOWN)
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert rows == [list(COLUMNS), *(
        [DAYS[n], KNOWN[e.exercise].name, str(e.sets), e.repetitions, "" if e.left is None else str(e.left),
         "" if e.rest is None else str(e.rest)] for n, day in enumerate(plan.week.days) for e in day)]
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "")


@given(plans())
def test_the_calendar_is_read_by_icalendar(plan: Plan) -> None:
    text = calendar(plan, KNOWN, MONDAY, STAMP, "week-1")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))  # RFC 5545, section 3.1
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    trained = [n for n, day in enumerate(plan.week.days) if day]
    assert [event.decoded("dtstart") for event in events] == [date(2026, 11, 23 + n) for n in trained]
    assert all((event.decoded("dtend") - event.decoded("dtstart")).days == 1 for event in events)
    assert len({str(event["uid"]) for event in events}) == len(trained)
    told = ["\n".join(f"{KNOWN[e.exercise].name}: {e.sets} x {e.repetitions}" for e in plan.week.days[n]) for n in trained]
    assert [str(event["description"]) for event in events] == told


def broken(**changed: object) -> str:
    return json.dumps({**json.loads(write(ONE)), **changed})


def with_entry(**changed: object) -> str:
    data = json.loads(write(ONE))
    data["days"][0][0].update(changed)
    return json.dumps(data)


@pytest.mark.parametrize(("text", "says"), [
    ("", "cut off"), (write(ONE)[:-4], "cut off"), ("[" * 50_000, "cut off"), (broken(goal=float("nan")), "cut off"),
    ("[]", "not of version 1"), (" " * 100_001, "too large"), (broken(version=2), "not of version 1"),
    (broken(version=True), "not of version 1"), (broken(goal="fame"), "names no goal"), (broken(goal=["growth"]), "names no goal"),
    (broken(days=[]), "seven days"), (broken(days=[1] * 7), "seven days"),
    (broken(days=[[{}] * 13, *([[]] * 6)]), "Monday holds more than 12"), (broken(days=[[7], *([[]] * 6)]), "does not have it"),
    (with_entry(exercise="z-curl"), "Monday, exercise 1: this handbook does not have it"),
    (with_entry(exercise=None), "does not have it"), (with_entry(sets=0), "sets cannot be read"),
    (with_entry(sets=None), "sets cannot be read"), (with_entry(sets="3"), "sets cannot be read"),
    (with_entry(sets=True), "sets cannot be read"), (with_entry(sets=2.5), "sets cannot be read"),
    (with_entry(sets=1e308), "sets cannot be read"), (with_entry(repetitions="12-8"), "repetitions cannot be read"),
    (with_entry(repetitions=8), "repetitions cannot be read"), (with_entry(left=11), "left cannot be read"),
    (with_entry(rest=-1), "rest cannot be read"), (with_entry(rest=[]), "rest cannot be read"),
])
def test_what_is_no_plan_is_refused_with_a_reason(text: str, says: str) -> None:
    with pytest.raises(BadPlan, match=says):
        read(text, IDS)


def test_what_it_holds_besides_is_dropped() -> None:
    assert read(with_entry(note="x", sets=3.0), IDS) == ONE
