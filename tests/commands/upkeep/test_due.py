"""`handbook upkeep due`: reviews by the calendar, references by turns.

Outside source: ISO 8601 for the weeks of a year, as Python's `date.fromisocalendar` reckons them.
"""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path

import pytest
import shipped_made

from build_tools import cli
from build_tools.catalog.load import load
from build_tools.commands.upkeep.due import this_week


def test_every_reference_has_its_turn_once_a_year_in_the_same_week() -> None:
    references = shipped_made.catalog().references.values()
    turns = {
        year: {
            reference.key: week
            for week in range(1, 53)
            for reference in this_week(references, date.fromisocalendar(year, week, 3))
        }
        for year in (2026, 2027)
    }
    assert turns[2026] == turns[2027]
    assert turns[2026].keys() == {reference.key for reference in references}
    # Nobody gets a heap: at this size a week that held three times its share would be a broken draw.
    assert max(Counter(turns[2026].values()).values()) <= 3 * len(references) / 52


def test_a_week_beyond_the_52nd_takes_the_first_group_again() -> None:
    references = shipped_made.catalog().references.values()
    assert this_week(references, date.fromisocalendar(2026, 53, 1)) == this_week(
        references, date.fromisocalendar(2026, 1, 1)
    )


def test_a_new_reference_moves_no_other(demo: Path) -> None:
    references = list(load(demo, "catalog").references.values())
    for week in range(1, 53):
        day = date.fromisocalendar(2026, week, 1)
        assert set(this_week(references[1:], day)) == set(this_week(references, day)) - {
            references[0]
        }


def test_the_list_names_what_is_due_and_where_to_look(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told = ""
    for week in range(52):
        monkeypatch.setenv("SOURCE_DATE_EPOCH", str(1796083200 + week * 7 * 86400))
        assert cli.main(["upkeep", "due"]) == 0
        told = capsys.readouterr().out
        assert "### Reviews that are due\n\nNone.\n" in told
        if "`wick2030`" in told:
            break
    reference = load(here, "catalog").references["wick2030"]
    assert f"- `wick2030` (2030): <{reference.link}>\n" in told
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(1796083200 + 3 * 366 * 86400))
    assert cli.main(["upkeep", "due"]) == 0
    assert (
        "- catalog/exercises/crate-curl.yaml: the review was due on 2028-11-01\n"
        in capsys.readouterr().out
    )
