"""The record of moved statements: days in order, each once, and nothing that was never published."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from folders import DEMO, SHIPPED

from build_tools.catalog.load import load
from build_tools.committed import files as committed
from build_tools.committed import record
from build_tools.committed.moves import Moves
from build_tools.revisions.statements import compare

CURL = "conclusions/exercises/crate-curl.yaml"
DAY = date(2026, 12, 1)


def found(root: Path) -> list[tuple[str, int, str]]:
    return [(f.rule, f.spot.line, f.message) for f in record.find(load(root, "demo"))]


def stored(root: Path, *replaced: tuple[str, str]) -> dict[str, str]:
    """The conclusions as they stand, with changes in those of the crate curl."""
    texts = {path: text or "" for path, text in committed.stored_texts(root).items()}
    for old, new in replaced:
        assert old in texts[CURL]
        texts[CURL] = texts[CURL].replace(old, new)
    return texts


def run(root: Path, day: date, before: dict[str, str], now: dict[str, str]) -> Moves:
    return record.add(load(root, "demo"), compare(before, now), day)


def days(root: Path) -> list[record.ChangeDay]:
    return record.read(load(root, "demo"))


FIRMER = ("finding: hinted", "finding: found")
LOW = ("certainty: very low", "certainty: low")


@pytest.mark.parametrize("catalog", [DEMO, SHIPPED])
def test_the_kept_records_are_sound(catalog: Path) -> None:
    assert found(catalog) == [] and days(catalog)


def test_a_run_adds_its_day_and_nothing_else(demo: Path) -> None:
    before = (demo / record.FILE).read_text()
    added = run(demo, DAY, stored(demo), stored(demo, FIRMER))
    assert [len(of) for of in added] == [1, 0, 0]
    after = (demo / record.FILE).read_text()
    assert after.startswith(before) and 'day: "2026-12-01"' in after[len(before) :]
    assert found(demo) == []


def test_nothing_that_moved_writes_nothing(demo: Path) -> None:
    (demo / record.FILE).unlink()
    assert not any(run(demo, DAY, stored(demo), stored(demo)))
    assert not (demo / record.FILE).exists()


def test_runs_of_one_day_are_one(demo: Path) -> None:
    """What the day began with, and what it ended with."""
    run(demo, DAY, stored(demo), stored(demo, FIRMER))
    run(demo, DAY, stored(demo, FIRMER), stored(demo, FIRMER, LOW))
    [day] = days(demo)[2:]
    [move] = day.moved
    assert [answer.finding for answer in move.before.answers] == ["hinted"]
    assert [(a.finding, a.certainty) for a in move.now.answers] == [("found", "low")]


def test_what_moved_back_the_same_day_did_not_move(demo: Path) -> None:
    before = (demo / record.FILE).read_text()
    run(demo, DAY, stored(demo), stored(demo, FIRMER))
    run(demo, DAY, stored(demo, FIRMER), stored(demo))
    assert (demo / record.FILE).read_text() == before


def test_what_moved_back_on_a_later_day_moved_twice(demo: Path) -> None:
    run(demo, DAY, stored(demo), stored(demo, FIRMER))
    run(demo, date(2026, 12, 9), stored(demo, FIRMER), stored(demo))
    assert [day.moved[0].way for day in days(demo)[2:]] == ["firmer", "weaker"]


def test_what_a_merge_brought_already_is_not_told_again(demo: Path) -> None:
    """The record came with the merge, the conclusions are still those of the other side."""
    run(demo, DAY, stored(demo), stored(demo, FIRMER))
    assert not any(run(demo, date(2026, 12, 9), stored(demo), stored(demo, FIRMER)))


def test_a_clock_that_is_behind_writes_no_history(demo: Path) -> None:
    run(demo, date(2020, 1, 1), stored(demo), stored(demo, FIRMER))
    assert [day.day for day in days(demo)] == [date(2026, 10, 1), date(2026, 11, 1)]
    assert len(days(demo)[1].moved) == 2


def test_a_note_stays(demo: Path) -> None:
    run(demo, date(2026, 11, 1), stored(demo), stored(demo, FIRMER))
    assert days(demo)[1].note == "The rule for lamps changed."


def edit(demo: Path, old: str, new: str) -> None:
    path = demo / record.FILE
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def test_days_out_of_order_are_refused_and_mended(demo: Path) -> None:
    edit(demo, "2026-10-01", "2026-11-30")
    assert found(demo) == [("change-record", 21, "this day stands after a later one, or twice")]
    run(demo, DAY, stored(demo), stored(demo))
    assert found(demo) == [] and [day.day.month for day in days(demo)] == [11, 11]


def test_a_day_that_stands_twice_is_refused_and_mended(demo: Path) -> None:
    """As a merge leaves it that keeps both sides."""
    edit(demo, "2026-10-01", "2026-11-01")
    assert [rule for rule, _, _ in found(demo)] == ["change-record"]
    run(demo, DAY, stored(demo), stored(demo))
    assert found(demo) == [] and len(days(demo)) == 1


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("/exercises/crate-curl/#claim-1", "/exercises/krate-curl/#claim-1", 5),
        ("/exercises/cable-curl/#claim-9", "/exercises/never/#claim-9", 39),
    ],
)
def test_an_address_that_never_was_is_refused(demo: Path, old: str, new: str, line: int) -> None:
    edit(demo, old, new)
    assert found(demo) == [("change-record", line, f"`{new}` was never published")]


def test_a_retired_page_that_was_published_may_stand_there(demo: Path) -> None:
    """Its address is on the list and answers for good."""
    edit(demo, "/exercises/cable-curl/#claim-9", "/exercises/lamp-curl/#claim-9")
    (demo / "addresses.txt").open("a").write("/exercises/lamp-curl/\n")
    assert found(demo) == []


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ("    note:", "    noot:", "unknown-key"),
        ('day: "2026-10-01"', 'day: "soon"', "wrong-type"),
        ('at: "/exercises', 'at: "javascript:/exercises', "wrong-value"),
        ("days:", "days: &x", "yaml-alias"),
    ],
)
def test_a_record_that_is_none_is_told_with_its_line(
    demo: Path, old: str, new: str, rule: str
) -> None:
    edit(demo, old, new)
    assert [told[0] for told in found(demo)] == [rule]
    assert days(demo) == []
    with pytest.raises(ValueError, match=r"changes\.yaml:[0-9]+: "):
        run(demo, DAY, stored(demo), stored(demo, FIRMER))
