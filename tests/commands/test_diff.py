"""`handbook diff` in real repositories: what is told is what was changed, and nothing is touched."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from repositories import Clone

from build_tools import cli

STUDY, CRATE, CABLE = (
    "studies/wick2030.yaml",
    "exercises/crate-curl.yaml",
    "exercises/cable-curl.yaml",
)


@pytest.fixture
def clone(here: Path) -> Clone:
    return Clone(here.parent)


def told(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert cli.main(["diff", *(words or ("HEAD",)), "--format", "json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def fates(found: dict[str, Any]) -> set[tuple[str, str]]:
    return {(change["fate"], change["id"]) for change in found["entries"]}


def test_nothing_differs_from_what_was_committed_last(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["diff", "HEAD"]) == 0
    short = clone.git("rev-parse", "HEAD")[:9]
    assert capsys.readouterr().out.startswith(f"The catalog now against HEAD ({short} of ")
    found = told(capsys)
    empty = {"moved", "reworded", "entries", "files", "notes"}
    assert {key for key in empty if found[key]} == set()


def test_a_studys_number_stands_behind_the_answer_that_it_moves(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    """The record of moves, written by `handbook conclude`, is another way to the same."""
    clone.edit(STUDY, ("change_percent: 14", "change_percent: 36"))
    assert cli.main(["conclude"]) == 0
    assert "statements: 1 moved, 0 new, 0 gone" in capsys.readouterr().err
    found = told(capsys)
    assert found["notes"] == []
    [move] = found["moved"]
    assert (move["at"], move["way"]) == ("/exercises/crate-curl/#claim-1", "firmer")
    assert [move[side]["answers"] for side in ("before", "now")] == [
        [["lantern/long-head", "hinted", "more", "very low"]],
        [["lantern/long-head", "found", "more", "very low"]],
    ]
    assert "14% against 9%" in move["before"]["sentence"]
    assert "36% against 9%" in move["now"]["sentence"]
    [why] = move["why"]
    assert why["kind"] == "study"
    assert why["says"].startswith("studies/wick2030.yaml changed: ")
    assert "seated, change percent: 14 → 36" in why["says"]
    [study] = found["entries"]
    assert (study["fate"], study["id"], len(study["numbers"])) == ("changed", "wick2030", 1)
    [leaf] = study["differs"]
    assert leaf["path"][-3:] == ["values", "seated", "change_percent"]
    assert (leaf["before"], leaf["now"]) == (14, 36)


def test_a_margin_stands_behind_the_answer_that_it_moves(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    """A margin of a quarter takes every difference of growth of this study for alike or unclear."""
    clone.edit("handbook.yaml", ("margin_growth: {value: 1.02,", "margin_growth: {value: 1.25,"))
    found = told(capsys)
    assert [move["outcome"] for move in found["moved"]] == ["growth"] * len(found["moved"]) != []
    for move in found["moved"]:
        assert move["why"] == [
            {
                "kind": "convention",
                "says": "handbook.yaml: margin growth: 1.02 → 1.25",
                "name": "margin_growth",
            }
        ]
    assert "would change, so what is told here was concluded anew" in found["notes"][0]
    assert [file["path"] for file in found["files"]] == ["handbook.yaml"]


def test_an_answer_that_moved_though_nothing_behind_it_changed_was_moved_by_a_rule(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    """Committed was what another program had concluded: today's says otherwise from the same files."""
    path = "conclusions/exercises/crate-curl.yaml"
    right = (clone.catalog / path).read_text(encoding="utf-8")
    clone.edit(path, ("finding: hinted", "finding: unclear"), ("        side: more\n", ""))
    clone.commit()
    (clone.catalog / path).write_text(right, encoding="utf-8")
    [move] = told(capsys)["moved"]
    assert [reason["kind"] for reason in move["why"]] == ["rule"]
    assert "from the old catalog, it says this too" in move["why"][0]["says"]
    [move] = told(capsys, "HEAD", "--quick")["moved"]
    assert "no study, convention or entry behind it changed" in move["why"][0]["says"]
    # A cue is nothing that numbers are drawn from.
    clone.edit(CABLE, ("Stand close to the post.", "Stand near the post."))
    [move] = told(capsys, "HEAD", "--quick")["moved"]
    assert [reason["kind"] for reason in move["why"]] == ["rule"]


def test_a_rule_and_a_study_are_both_named_where_both_moved_it(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    clone.edit(
        "conclusions/exercises/crate-curl.yaml",
        ("finding: hinted", "finding: unclear"),
        ("        side: more\n", ""),
    )
    clone.commit()
    clone.edit(STUDY, ("change_percent: 14", "change_percent: 36"))
    [move] = told(capsys)["moved"]
    assert [reason["kind"] for reason in move["why"]] == ["study", "rule"]


def test_a_renamed_exercise_is_one_exercise_and_its_statements_stay(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    clone.rename("cable-curl", "standing-curl")
    (clone.catalog / "moved.yaml").write_text("exercises: {cable-curl: standing-curl}\n")
    found = told(capsys)
    [change] = found["entries"]
    assert (change["fate"], change["was"], change["id"]) == (
        "renamed",
        "cable-curl",
        "standing-curl",
    )
    assert change["differs"] == []
    assert found["moved"] == [] and found["statements"] == {"new": [], "gone": []}
    assert found["addresses"] == {
        "dying": [],
        "new": ["/cues/standing-curl/", "/exercises/standing-curl/"],
    }


def test_a_retired_exercise_leads_on_or_its_addresses_die(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    """Listed under three folders; without moved.yaml both pages of the exercise die."""
    clone.edit(
        CRATE,
        ("exercise: cable-curl", "part: lantern/short-head"),
        ("swaps: [cable-curl]", "swaps: []"),
    )
    (clone.catalog / CABLE).unlink()
    for study in (clone.catalog / "studies").glob("*.yaml"):
        clone.edit(f"studies/{study.name}", ("exercise: cable-curl, ", ""))
    found = told(capsys)
    assert ("removed", "cable-curl") in fates(found)
    dying = {one["address"]: one["remedy"] for one in found["addresses"]["dying"]}
    assert dying.keys() == {"/cues/cable-curl/", "/exercises/cable-curl/"}
    assert all(
        "moved.yaml write `exercises: {cable-curl: its-new-id}`" in r for r in dying.values()
    )
    assert found["statements"]["gone"]
    (clone.catalog / "moved.yaml").write_text("exercises: {cable-curl: crate-curl}\n")
    found = told(capsys)
    [change] = [change for change in found["entries"] if change["id"] == "cable-curl"]
    assert (change["fate"], change["successor"]) == ("retired", "crate-curl")
    assert found["addresses"]["dying"] == []


def test_a_line_taken_out_of_the_list_of_addresses_hides_no_death(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    (clone.catalog / "references.bib").write_text(
        (clone.catalog / "references.bib").read_text().replace("snuffed2029", "snuffed2028")
    )
    clone.edit("muscles/lantern.yaml", ("snuffed2029", "snuffed2028"))
    clone.edit("addresses.txt", ("/sources/snuffed2029/\n", ""))
    found = told(capsys)
    assert [one["address"] for one in found["addresses"]["dying"]] == ["/sources/snuffed2029/"]
    assert fates(found) >= {("added", "snuffed2028"), ("removed", "snuffed2029")}


def test_a_claim_that_came_is_told(clone: Clone, capsys: pytest.CaptureFixture[str]) -> None:
    clone.edit(
        CABLE,
        (
            "cues:\n",
            "  - part: [lantern/long-head]\n    outcome: growth\n    less_than: {exercise: crate-curl}\n"
            "    because: The straight hip shortens it.\n    cites: [{key: wick2030, at: abstract}]\ncues:\n",
        ),
    )
    found = told(capsys)
    [change] = found["entries"]
    assert change["fields"] == ["claims (1 added)"]
    assert found["statements"]["new"] == ["/exercises/cable-curl/#claim-2"]


def test_two_revisions_are_compared_without_the_folder(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    clone.edit(CABLE, ("Stand close to the post.", "Stand near the post."))
    clone.commit()
    clone.edit(CABLE, ("Stand near the post.", "Stand anywhere."))
    assert cli.main(["diff", "HEAD~1", "main"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("The catalog of main (")
    assert "Stand close to the post. → Stand near the post." in out and "anywhere" not in out


def test_the_working_tree_the_index_and_the_branches_are_not_touched(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    clone.edit(CABLE, ("Stand close to the post.", "Stand near the post."))
    clone.git("add", "--all")
    clone.edit(CABLE, ("Stand near the post.", "Stand anywhere."))

    def state() -> dict[str, tuple[int, bytes]]:
        files = (path for path in clone.folder.rglob("*") if path.is_file())
        return {str(path): (path.stat().st_mtime_ns, path.read_bytes()) for path in files}

    before = state()
    assert cli.main(["diff", "HEAD", "--format", "markdown"]) == 0
    assert state() == before


def test_a_catalog_with_errors_is_still_compared(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    (clone.catalog / CRATE).write_text("name: [\n", encoding="utf-8")
    clone.edit("references.bib", ("@article{snuffed2029,", "@article{snuffed2028,"))
    clone.edit(CABLE, ("Stand close to the post.", "Stand near the post."))
    found = told(capsys)
    assert any("only addresses of entries were compared" in note for note in found["notes"])
    assert any("was not concluded from" in note for note in found["notes"])
    [broken] = [change for change in found["entries"] if change["id"] == "crate-curl"]
    assert "the file cannot be read as it is now" in broken["fields"][0]
    assert ("changed", "cable-curl") in fates(found)
    assert [one["address"] for one in found["addresses"]["dying"]] == ["/sources/snuffed2029/"]


def test_an_older_form_is_compared_as_far_as_it_goes(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    """A key and conclusions that today's program does not know."""
    clone.edit(CABLE, ("sides: one\n", "sides: one\nlevel: 3\n"))
    for path in (clone.catalog / "conclusions").rglob("*.yaml"):
        path.write_text("claims: [{claim: x/1, verdict: leaning}]\n", encoding="utf-8")
    clone.commit()
    clone.edit(CABLE, ("level: 3\n", ""))
    assert cli.main(["conclude"]) == 0
    capsys.readouterr()
    found = told(capsys)
    assert any("in a form that this program does not read" in note for note in found["notes"])
    assert any(
        "Today's program cannot conclude from the old catalog" in note for note in found["notes"]
    )
    [change] = found["entries"]
    assert change["fields"] == ["level (taken out)"]
    assert cli.main(["diff", "HEAD"]) == 0
    assert "Answers were not compared" in capsys.readouterr().out


def test_what_was_never_concluded_is_concluded_now(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    clone.git("rm", "-r", "--quiet", "catalog/conclusions")
    clone.commit()
    clone.git("checkout", "--quiet", "HEAD~1", "--", "catalog/conclusions")
    clone.edit(STUDY, ("change_percent: 14", "change_percent: 36"))
    found = told(capsys)
    assert len(found["moved"]) == 1
    assert any("No conclusions were committed then" in note for note in found["notes"])


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert cli.main(["diff", *words]) == 2
    out, err = capsys.readouterr()
    assert out == "" and err.startswith("handbook: ")
    return err


def test_what_cannot_be_compared_is_said_with_what_to_do(
    clone: Clone, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "there is no revision `no-such`" in refused(capsys, "no-such")
    assert "there is no revision `HEAD:catalog`" in refused(capsys, "HEAD:catalog")
    err = refused(capsys, "HEAD", "HEAD", "--catalog", "katalog")
    assert "there was no `katalog/` at HEAD" in err and "`catalog/` then" in err
    assert "there is no folder `katalog`" in refused(capsys, "HEAD", "--catalog", "katalog")
    monkeypatch.setenv("PATH", str(clone.folder))
    assert "git was not found; install it" in refused(capsys, "HEAD")


def test_a_folder_outside_of_any_repository_is_named(
    here: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(here.parent.parent))
    assert "`catalog` stands in no git repository" in refused(capsys, "HEAD")


def test_a_shallow_clone_is_told_to_fetch(
    clone: Clone, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    clone.commit()
    clone.git("clone", "--quiet", "--depth", "1", clone.folder.as_uri(), "shallow")
    monkeypatch.chdir(clone.folder / "shallow")
    assert "git fetch --unshallow" in refused(capsys, "HEAD~1")
    clone.git("branch", "other")
    clone.git("clone", "--quiet", clone.folder.as_uri(), "deep")
    monkeypatch.chdir(clone.folder / "deep")
    assert "write origin/other" in refused(capsys, "other")
    clone.git("branch", "later")
    assert "run: git fetch origin later" in refused(capsys, "later")


def test_a_branch_with_an_odd_name_steers_neither_git_nor_the_summary(
    clone: Clone, capsys: pytest.CaptureFixture[str]
) -> None:
    """Git allows all of these in a name (git-check-ref-format)."""
    name = "x<b>_y_</b>;$(touch${IFS}here)`&|'\"@someone#1"
    clone.git("branch", name)
    assert cli.main(["diff", name, "--format", "markdown"]) == 0
    out = capsys.readouterr().out
    assert not set("<`@") & set(out.splitlines()[0]) and "_y_" not in out
    assert not (clone.folder / "here").exists()
