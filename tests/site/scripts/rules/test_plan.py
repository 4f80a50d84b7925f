"""The saved plan, its table and its calendar, read back by independent readers: Python's csv module and the icalendar library."""

from __future__ import annotations

import csv
import io
import json
from base64 import urlsafe_b64decode
from datetime import date, datetime
from typing import Any

import icalendar
import pytest
import script_rules
from hypothesis import given
from hypothesis import strategies as st
from worlds import IDS, entry, exercise, published, weeks

from build_tools.handout import limits
from build_tools.planning import plan
from build_tools.planning.plan import DAYS

Plan = dict[str, Any]
COLUMNS = ["day", "exercise", "sets", "repetitions", "repetitions left", "rest in seconds"]
KNOWN = published(exercise(id, name=f'{id}, "long"; back\\slash ąß' * 3) for id in IDS)
DATA = {
    "exercises": KNOWN,
    "plan": {
        "version": plan.VERSION,
        "characters": plan.MOST_CHARACTERS,
        "days": list(DAYS),
        "exercises": plan.MOST_EXERCISES,
        "goals": list(plan.GOALS),
    },
}
MONDAY, STAMP = datetime(2026, 11, 23), datetime(2026, 11, 25, 13, 0, 5)
ONE: Plan = {"goal": "growth", "days": [[entry("a-curl", 3, "8-12", 2, 90)], *([[]] * 6)]}


def plans() -> st.SearchStrategy[Plan]:
    return st.fixed_dictionaries({"goal": st.sampled_from(["growth", "strength"]), "days": weeks()})


def write(given: Plan) -> str:
    return script_rules.plan.write(given, DATA)


def read(text: str) -> Plan:
    return script_rules.plan.read(text, DATA, limits.as_data())


@given(plans())
def test_what_was_saved_is_opened(plan: Plan) -> None:
    assert json.loads(write(plan)) == {"version": 1, **plan}
    assert read(write(plan)) == plan
    packed = script_rules.plan.packed(plan, DATA)
    assert json.loads(urlsafe_b64decode(packed + "=" * (-len(packed) % 4))) == {
        "version": 1,
        **plan,
    }  # RFC 4648, section 5
    assert script_rules.plan.unpacked(packed, DATA, limits.as_data()) == plan


@pytest.mark.parametrize("text", ["W*", "A", "_w", "Ww"])
def test_a_damaged_address_is_refused(text: str) -> None:
    with pytest.raises(script_rules.Refused, match="damaged or cut off|cut off"):
        script_rules.plan.unpacked(text, DATA, limits.as_data())


@given(plans())
def test_the_table_is_read_by_pythons_csv(plan: Plan) -> None:
    text = script_rules.plan.csv(plan, DATA)
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert rows == [
        COLUMNS,
        *(
            [
                DAYS[n],
                KNOWN[e["exercise"]]["name"],
                *(
                    "" if e[key] is None else str(e[key])
                    for key in ("sets", "repetitions", "left", "rest")
                ),
            ]
            for n, day in enumerate(plan["days"])
            for e in day
        ),
    ]
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "")


@given(plans())
def test_the_calendar_is_read_by_icalendar(plan: Plan) -> None:
    text = script_rules.plan.calendar(plan, DATA, MONDAY, STAMP, "week-1")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))  # RFC 5545, section 3.1
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    trained = [n for n, day in enumerate(plan["days"]) if day]
    assert [event.decoded("dtstart") for event in events] == [
        date(2026, 11, 23 + n) for n in trained
    ]
    assert all((event.decoded("dtend") - event.decoded("dtstart")).days == 1 for event in events)
    assert all(event.decoded("dtstamp").replace(tzinfo=None) == STAMP for event in events)
    assert len({str(event["uid"]) for event in events}) == len(trained)
    told = [
        "\n".join(
            f"{KNOWN[e['exercise']]['name']}: {e['sets']} x {e['repetitions']}"
            for e in plan["days"][n]
        )
        for n in trained
    ]
    assert [str(event["description"]) for event in events] == told


def broken(**changed: object) -> str:
    return json.dumps({**json.loads(write(ONE)), **changed})


def with_entry(**changed: object) -> str:
    data = json.loads(write(ONE))
    data["days"][0][0].update(changed)
    return json.dumps(data)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "cut off"),
        (write(ONE)[:-4], "cut off"),
        ("[" * 50_000, "cut off"),
        (broken(goal=float("nan")), "cut off"),
        ("[]", "not of version 1"),
        (" " * 100_001, "too large"),
        (broken(version=2), "not of version 1"),
        (broken(version=True), "not of version 1"),
        (broken(goal="fame"), "names no goal"),
        (broken(goal=["growth"]), "names no goal"),
        (broken(days=[]), "seven days"),
        (broken(days=[1] * 7), "seven days"),
        (broken(days=[[{}] * 13, *([[]] * 6)]), "Monday holds more than 12"),
        (broken(days=[[7], *([[]] * 6)]), "does not have it"),
        (with_entry(exercise="z-curl"), "Monday, exercise 1: this handbook does not have it"),
        (with_entry(exercise=None), "does not have it"),
        (with_entry(sets=0), "sets cannot be read"),
        (with_entry(sets=None), "sets cannot be read"),
        (with_entry(sets="3"), "sets cannot be read"),
        (with_entry(sets=True), "sets cannot be read"),
        (with_entry(sets=2.5), "sets cannot be read"),
        (with_entry(sets=1e308), "sets cannot be read"),
        (with_entry(repetitions="12-8"), "repetitions cannot be read"),
        (with_entry(repetitions=8), "repetitions cannot be read"),
        (with_entry(left=11), "left cannot be read"),
        (with_entry(rest=-1), "rest cannot be read"),
        (with_entry(rest=[]), "rest cannot be read"),
    ],
)
def test_what_is_no_plan_is_refused_with_a_reason(text: str, says: str) -> None:
    with pytest.raises(script_rules.Refused, match=says):
        read(text)


def test_what_it_holds_besides_is_dropped() -> None:
    assert read(with_entry(note="x", sets=3.0)) == ONE
