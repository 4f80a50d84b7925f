"""What `handbook conclude` records behind a move: told by the history where there is one, and by nothing else."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from repositories import Clone

from build_tools import cli

STUDY = "studies/wick2030.yaml"


@pytest.fixture
def clone(here: Path, command_line: None) -> Clone:
    return Clone(here.parent)


def recorded(root: Path) -> list[dict[str, Any]]:
    """The moves of the newest day, read by PyYAML."""
    assert cli.main(["conclude"]) < 2
    days = yaml.safe_load((root / "changes.yaml").read_text(encoding="utf-8"))["days"]
    assert days[-1]["day"] == "2026-12-01"
    moved: list[dict[str, Any]] = days[-1]["moved"]
    return moved


def test_a_changed_study_is_named(clone: Clone) -> None:
    clone.edit(STUDY, ("change_percent: 14", "change_percent: 36"))
    assert [move["because"] for move in recorded(clone.catalog)] == [["study wick2030"]]
    assert cli.main(["conclude", "--check", "--strict"]) == 0


def test_a_changed_margin_is_named(clone: Clone) -> None:
    clone.edit("handbook.yaml", ("margin_growth: {value: 1.02,", "margin_growth: {value: 1.25,"))
    moved = recorded(clone.catalog)
    assert moved and {tuple(move["because"]) for move in moved} == {("convention margin_growth",)}


def test_where_nothing_behind_it_changed_a_rule_did(clone: Clone) -> None:
    """Committed is what another program concluded; a remark and another claim's reason are nothing that is weighed."""
    file = "conclusions/exercises/crate-curl.yaml"
    clone.edit(file, ("finding: hinted", "finding: unclear"), ("        side: more\n", ""))
    (clone.catalog / "changes.yaml").unlink()  # it tells of this very answer already
    clone.commit()
    clone.edit(STUDY, ("limits: Invented,", "limits: All invented,"))
    clone.edit("exercises/crate-curl.yaml", ("Teachers feel it there.", "Teachers say so."))
    assert [move["because"] for move in recorded(clone.catalog)] == [["rule"]]


def test_a_number_of_another_outcome_is_not_behind_it(clone: Clone) -> None:
    """The claim is on growth; a signal over the same muscle is changed in a study that it does not rest on."""
    file = "conclusions/exercises/crate-curl.yaml"
    clone.edit(file, ("finding: hinted", "finding: unclear"), ("        side: more\n", ""))
    (clone.catalog / "changes.yaml").unlink()  # it tells of this very answer already
    clone.commit()
    clone.edit("studies/glow2031.yaml", ("mean: 61", "mean: 62"))
    [move] = recorded(clone.catalog)
    assert move["because"] == ["rule"]


def test_a_certainty_that_an_author_sets_is_named(clone: Clone) -> None:
    reason = "    because: The bent hip lengthens the part that crosses it.\n"
    own = "    certainty: {level: moderate, because: Invented., cites: [{key: wick2030, at: abstract}]}\n"
    clone.edit("exercises/crate-curl.yaml", (reason, reason + own))
    [move] = recorded(clone.catalog)
    assert move["because"] == ["entry exercises/crate-curl"]


@pytest.mark.parametrize("lost", [True, False], ids=["no history", "a shallow one"])
def test_without_a_history_nothing_is_said(
    clone: Clone, monkeypatch: pytest.MonkeyPatch, lost: bool
) -> None:
    root = clone.catalog
    if lost:
        monkeypatch.setenv("PATH", "")
    else:
        clone.commit()
        clone.git("clone", "--quiet", "--depth", "1", clone.folder.as_uri(), "shallow")
        root = clone.folder / "shallow" / "catalog"
        monkeypatch.chdir(root.parent)
    text = (root / STUDY).read_text(encoding="utf-8")
    (root / STUDY).write_text(
        text.replace("change_percent: 14", "change_percent: 36"), encoding="utf-8"
    )
    [move] = recorded(root)
    assert "because" not in move


def test_two_runs_of_a_day_name_both(clone: Clone) -> None:
    clone.edit(STUDY, ("change_percent: 14", "change_percent: 36"))
    recorded(clone.catalog)
    clone.commit()
    clone.edit("handbook.yaml", ("margin_growth: {value: 1.02,", "margin_growth: {value: 1.25,"))
    moved = {move["at"]: move["because"] for move in recorded(clone.catalog)}
    assert moved["/exercises/crate-curl/#claim-1"] == ["study wick2030", "convention margin_growth"]
