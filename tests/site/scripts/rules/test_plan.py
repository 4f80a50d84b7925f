"""The saved plan, its table and its calendar, read back by independent readers: Python's csv module and the icalendar library."""

from __future__ import annotations

import csv
import io
import json
from base64 import urlsafe_b64decode, urlsafe_b64encode
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
COLUMNS = [
    *("week", "day", "exercise", "sets", "repetitions", "load", "repetitions left"),
    *("rest in seconds", "tempo", "note"),
    *("sets done", "fewest repetitions done", "load done", "repetitions left after"),
]
FIELDS = ("sets", "repetitions", "load", "left", "rest", "tempo", "note")
MONDAYS = [None, "2026-11-30", "2026-12-07", "2027-03-01"]
KNOWN = published(exercise(id, name=f'{id}, "long"; back\\slash ąß' * 3) for id in IDS)
DATA = {
    "exercises": KNOWN,
    "plan": plan.as_data(),
}
MONDAY, STAMP = datetime(2026, 11, 23), datetime(2026, 11, 25, 13, 0, 5)
ONE: Plan = {
    "goal": "growth",
    "monday": "2026-12-07",
    "easy": False,
    "main": {"a-curl": True},
    "days": [[entry("a-curl", 3, "8-12", 2, 90, load="20 kg", done=None)], *([[]] * 6)],
    "before": [],
}


def plans() -> st.SearchStrategy[Plan]:
    monday = st.sampled_from(MONDAYS)
    return st.fixed_dictionaries(
        {
            "goal": st.sampled_from(["growth", "strength"]),
            "monday": monday,
            "easy": st.booleans(),
            "main": st.dictionaries(st.sampled_from(IDS), st.booleans()),
            "days": weeks(),
            "before": st.lists(
                st.fixed_dictionaries({"monday": monday, "easy": st.booleans(), "days": weeks()}),
                max_size=2,
            ),
        }
    )


def given_alone(value: Any) -> Any:
    """The same without what is not given."""
    if isinstance(value, dict):
        held = {key: given_alone(one) for key, one in value.items() if one is not None}
        return {key: one for key, one in held.items() if key != "easy" or one}
    return [given_alone(held) for held in value] if isinstance(value, list) else value


def write(given: Plan) -> str:
    return script_rules.plan.write(given, DATA)


def read(text: str) -> Plan:
    return script_rules.plan.read(text, DATA, limits.as_data())


@given(plans())
def test_what_was_saved_is_opened(plan: Plan) -> None:
    held = {"version": 2, **given_alone(plan)}
    bare = {key: value for key, value in held.items() if value or key not in ("main", "before")}
    assert json.loads(write(plan)) == bare
    assert read(write(plan)) == plan
    packed = script_rules.plan.packed(plan, DATA)
    del held["before"]
    bare.pop("before", None)
    text = urlsafe_b64decode(packed + "=" * (-len(packed) % 4))  # RFC 4648, section 5
    assert json.loads(text) == bare
    assert script_rules.plan.unpacked(packed, DATA, limits.as_data()) == {**plan, "before": []}


@given(weeks())
def test_a_file_of_the_first_version_opens_to_the_same_week(days: list[list[Plan]]) -> None:
    old = ("exercise", "sets", "repetitions", "left", "rest")
    rows = [[{key: row[key] for key in old} for row in day] for day in days]
    now = [[entry(*(row[key] for key in old)) for row in day] for day in days]
    text = json.dumps({"version": 1, "goal": "strength", "days": rows})
    rest = {"monday": None, "easy": False, "main": {}, "before": []}
    wanted = {"goal": "strength", "days": now, **rest}
    assert read(text) == wanted
    packed = urlsafe_b64encode(text.encode()).decode().rstrip("=")
    assert script_rules.plan.unpacked(packed, DATA, limits.as_data()) == wanted


@pytest.mark.parametrize("text", ["W*", "A", "_w", "Ww"])
def test_a_damaged_address_is_refused(text: str) -> None:
    with pytest.raises(script_rules.Refused, match="damaged or cut off|cut off"):
        script_rules.plan.unpacked(text, DATA, limits.as_data())


@given(plans())
def test_the_table_is_read_by_pythons_csv(plan: Plan) -> None:
    text = script_rules.plan.csv(plan, DATA)
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))

    def shown(value: object) -> str:
        return "" if value is None else str(value)

    wanted = [
        [
            shown(week["monday"]),
            DAYS[n],
            KNOWN[e["exercise"]]["name"],
            *(shown(e[key]) for key in FIELDS),
            *(shown((e["done"] or {}).get(key)) for key in ("sets", "repetitions", "load", "left")),
        ]
        for week in [*plan["before"], plan]
        for n, day in enumerate(week["days"])
        for e in day
    ]
    plain = [[cell.removeprefix("'") for cell in row] for row in rows]
    assert plain == [COLUMNS, *wanted]
    # What a spreadsheet reckons as a formula begins with one of these (OWASP, "CSV Injection"; from memory).
    assert not any(
        cell.startswith(("=", "+", "-", "@", "\t", "\r")) for row in rows for cell in row
    )
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
            + (f", {e['load']}" if e["load"] else "")
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
        (" " * 400_001, "too large"),
        (broken(version=3), "not of version 1 or 2"),
        (broken(main=[]), "main lifts cannot be read"),
        (broken(main={"z-curl": True}), "main lifts cannot be read"),
        (broken(main={"a-curl": 1}), "main lifts cannot be read"),
        (broken(monday="2026-12-08"), "does not begin with a Monday"),
        (broken(monday="2026-02-30"), "does not begin with a Monday"),
        (broken(monday=7), "does not begin with a Monday"),
        (broken(easy=1), "easy one cannot be read"),
        (broken(before=7), "past weeks cannot be read"),
        (broken(before=[7]), "past weeks cannot be read"),
        (broken(before=[{"days": [[]] * 7}] * 105), "more than 104 past weeks"),
        (broken(before=[{"days": []}]), "seven days"),
        (broken(before=[{"days": [[{}], *([[]] * 6)]}]), "Past week 1, Monday, exercise 1"),
        (with_entry(load=20), "load cannot be read"),
        (with_entry(load="x" * 21), "load cannot be read"),
        (with_entry(tempo="slow"), "tempo cannot be read"),
        (with_entry(note="n" * 141), "note cannot be read"),
        (with_entry(done=3), "what was done cannot be read"),
        (with_entry(done={}), "what was done cannot be read"),
        (with_entry(done={"sets": 3, "repetitions": 1000}), "what was done cannot be read"),
        (with_entry(done={"sets": 3, "load": 20}), "what was done cannot be read"),
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
    assert read(with_entry(mood="x", sets=3.0)) == ONE


def test_the_coach_says_what_a_main_lift_is() -> None:
    known = published([exercise("a-curl", main=True), exercise("b-curl"), exercise("c-curl")])
    plan = {**ONE, "main": {"a-curl": False, "b-curl": True}}
    found = script_rules.plan.seen(plan, known)
    assert {id: one["main"] for id, one in found.items()} == {
        "a-curl": False,
        "b-curl": True,
        "c-curl": False,
    }
    assert all(script_rules.plan.isMain(plan, known, id) == found[id]["main"] for id in known)
    assert known["a-curl"]["main"]  # the catalog's word is left as it is


def test_a_handout_of_chosen_days() -> None:
    plan = {**ONE, "days": [ONE["days"][0], [], [entry("b-curl", 2, "8")], *([[]] * 4)]}
    found = script_rules.plan.handout(plan, {"title": "Week", "care": ["knee"]})
    assert [day["day"] for day in found["days"]] == [0, 2]
    assert found["days"][0]["items"][0] == {
        **{"id": "a-curl", "sets": 3, "repetitions": "8-12", "load": "20 kg", "left": 2},
        **{"rest": 90, "tempo": None, "note": None},
    }
    assert (found["title"], found["coach"], found["care"]) == ("Week", None, ["knee"])
    assert [day["day"] for day in script_rules.plan.handout(plan, {}, [2])["days"]] == [2]


def test_a_week_of_another_time_opens_with_what_there_is_now() -> None:
    """A renamed exercise is its successor everywhere; one taken out leaves its row, and is named."""
    old = json.loads(script_rules.plan.write(ONE, DATA))
    row = old["days"][0][0]
    old["main"] = {"lamp-curl": True, "pit-curl": False}
    old["days"][0] = [{**row, "exercise": "lamp-curl"}, {**row, "exercise": "pit-curl"}]
    old["before"] = [
        {
            "days": [
                [{**row, "exercise": "pit-curl"}],
                [{**row, "exercise": "lamp-curl"}],
                *([[]] * 5),
            ]
        }
    ]
    text = json.dumps(old)
    data = {**DATA, "moved": {"lamp-curl": "a-curl"}, "retired": {"pit-curl": "Pit curl"}}
    read = script_rules.plan.read(text, data, limits.as_data())
    assert read["days"] == ONE["days"] and read["main"] == {"a-curl": True}
    assert [[one["exercise"] for one in day] for day in read["before"][0]["days"]] == [
        [],
        ["a-curl"],
        *([[]] * 5),
    ]
    assert script_rules.plan.takenOut(text, data) == ["Pit curl"]
    assert script_rules.plan.takenOut(script_rules.plan.write(read, data), data) == []
    # In a catalog that never had them they stay what they are: unknown.
    with pytest.raises(script_rules.Refused):
        script_rules.plan.read(text, DATA, limits.as_data())


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        '{"days": 3}',
        '{"version": 2, "goal": "growth", "days": [[null]], "before": [3]}',
    ],
)
def test_a_file_that_is_none_is_refused_as_before(text: str) -> None:
    data = {**DATA, "moved": {"lamp-curl": "a-curl"}, "retired": {"pit-curl": "Pit curl"}}
    with pytest.raises(script_rules.Refused):
        script_rules.plan.read(text, data, limits.as_data())
    assert script_rules.plan.takenOut(text, data) == []
