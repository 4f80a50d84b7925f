"""`handbook conclude` writes what changed, and nothing from an unsound catalog."""

import shutil
from pathlib import Path

import pytest
from command import break_swap

from build_tools import cli


def test_conclude_writes_what_changed_and_then_has_nothing_to_do(here, capsys):
    shutil.rmtree(here / "conclusions")
    assert cli.main(["conclude", "--check"]) == 1
    assert capsys.readouterr().out == (
        "catalog/conclusions:1:1: error[stale-conclusions]: the conclusions were never written\n"
        "  help: run `handbook conclude` and commit what it writes\n1 error in 15 entries\n"
    )
    assert not (here / "conclusions").exists()
    assert cli.main(["conclude"]) == 0
    assert capsys.readouterr() == (
        "no findings in 15 entries\n",
        "3 written, 0 removed, 0 unchanged in catalog/conclusions\n",
    )
    assert cli.main(["conclude"]) == 0
    assert capsys.readouterr().err == "0 written, 0 removed, 3 unchanged in catalog/conclusions\n"
    assert cli.main(["conclude", "--check", "--strict"]) == 0


def test_nothing_is_concluded_from_an_unsound_catalog(here, capsys):
    shutil.rmtree(here / "conclusions")
    break_swap(here)
    assert cli.main(["conclude"]) == 1
    out, err = capsys.readouterr()
    assert "error[known-exercise]" in out and "nothing was computed" in err
    assert not (here / "conclusions").exists()


def contradict(catalog):
    """Turn the claim round, of a difference so large that no study like it would be thought to find the reverse."""
    for path, old, new in (
        (
            "exercises/crate-curl.yaml",
            "more_than: {exercise: cable-curl}",
            "less_than: {exercise: cable-curl}",
        ),
        ("studies/wick2030.yaml", "change_percent: 14", "change_percent: 36"),
    ):
        file = catalog / path
        file.write_text(file.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")


@pytest.mark.parametrize(
    "command",
    [
        ["conclude"],
        ["conclude", "--check", "--format", "sarif"],
        ["write", "--to", "out", "--content", "."],
    ],
)
def test_a_contradicted_claim_fails_whatever_shows_it(here, capsys, command):
    contradict(here)
    assert cli.main(["check"]) == 0, "the check itself reckons nothing"
    assert cli.main(command) == 1
    assert "contradicted-claim" in (out := capsys.readouterr()).out or "conclude --check" in out.err
    assert not Path("out").exists()


def test_what_moves_is_recorded_under_the_day_of_the_build(here, capsys):
    """The study's number is mended: one claim and the pair on its part say more; numbers alone add no day."""
    study = here / "studies" / "wick2030.yaml"
    text = study.read_text(encoding="utf-8")
    record = here / "changes.yaml"
    before = record.read_text(encoding="utf-8")
    study.write_text(text.replace("change_percent: 14", "change_percent: 14.1"), encoding="utf-8")
    assert cli.main(["conclude"]) == 0
    assert "recorded" not in capsys.readouterr().err
    assert record.read_text(encoding="utf-8") == before
    study.write_text(text.replace("change_percent: 14", "change_percent: 36"), encoding="utf-8")
    assert cli.main(["conclude"]) == 0
    assert "statements: 1 moved, 0 new, 0 gone; recorded in catalog/changes.yaml" in (
        capsys.readouterr().err
    )
    added = record.read_text(encoding="utf-8").removeprefix(before)
    assert added.startswith('  - day: "2026-12-01"\n') and added.count("  - at:") == 1
    assert cli.main(["conclude", "--check", "--strict"]) == 0


def test_a_record_that_is_out_of_order_fails_the_check(here, capsys):
    record = here / "changes.yaml"
    text = record.read_text(encoding="utf-8")
    record.write_text(text.replace("2026-10-01", "2026-11-30"), encoding="utf-8")
    assert cli.main(["conclude", "--check"]) == 1
    assert "catalog/changes.yaml:21:10: error[change-record]" in capsys.readouterr().out


def test_a_renamed_exercise_moves_no_statement(here, capsys):
    """The record is the reader's: nothing is new or gone because an id is another."""
    assert cli.main(["conclude"]) == 0
    before = (here / "changes.yaml").read_text(encoding="utf-8")
    capsys.readouterr()
    (here / "exercises/cable-curl.yaml").rename(here / "exercises/pulley-curl.yaml")
    for path in [*(here / "exercises").glob("*.yaml"), *(here / "studies").glob("*.yaml")]:
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("cable-curl", "pulley-curl"), encoding="utf-8")
    moved = here / "moved.yaml"
    moved.write_text("exercises: {cable-curl: pulley-curl}\n", encoding="utf-8")
    assert cli.main(["conclude"]) == 0
    assert "statements:" not in capsys.readouterr().err
    assert (here / "changes.yaml").read_text(encoding="utf-8") == before
