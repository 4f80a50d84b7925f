"""`handbook upkeep generated` in a repository of its own, as a pull request's workflow runs it.

The outside judge is git: `git apply` of the patch, on a clone of what the contributor sent, must give the bytes that a
person gets who runs `handbook conclude` and `handbook addresses`.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from contributed import Repository

from build_tools import cli

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")

#: What the exercise that the pull request brings moves.
MOVED = ["addresses.txt", "changes.yaml", "conclusions/exercises/rope-curl.yaml"]


def generated(*arguments: str) -> int:
    return cli.main(["upkeep", "generated", "--strict", *arguments])


@pytest.fixture
def pulled(here: Path) -> Repository:
    """A repository whose last commit brings an exercise, written by hand, and nothing that is generated."""
    repository = Repository(here.parent)
    repository.commit("base")
    text = (here / "exercises" / "crate-curl.yaml").read_text(encoding="utf-8")
    for old, new in (
        ("name: Crate curl", "name: Knotted rope pull"),
        ("[box curl, seated lamp curl]", "[knot pull]"),
        ("cites: [{key: wick2030, at: abstract}]", "common_practice: Commonly taught."),
    ):
        assert old in text
        text = text.replace(old, new)
    (here / "exercises" / "rope-curl.yaml").write_text(text, encoding="utf-8")
    repository.commit("an exercise")
    return repository


def test_what_a_contributor_leaves_out_is_made_and_handed_on_as_a_patch(
    pulled: Repository, here: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    index = pulled("status", "--porcelain")
    assert generated("--since", "HEAD^1", "--patch", "generated.patch") == 0
    told = capsys.readouterr().out
    assert "3 generated files follow from this change:" in told
    assert all(f"`{name}`" in told for name in MOVED) and "`git apply generated.patch`" in told
    assert index == "" and pulled("diff", "--cached", "--name-only") == "", (
        "the index is the person's own"
    )

    Repository(tmp_path)("clone", "--quiet", str(here.parent), "clone")
    clone = Repository(tmp_path / "clone")
    clone("apply", str(here.parent / "generated.patch"))
    assert {
        line[3:].removeprefix("catalog/")
        for line in clone("status", "--porcelain", "--untracked-files=all").splitlines()
    } == set(MOVED)
    by_hand = tmp_path / "by hand" / "catalog"
    shutil.copytree(here, by_hand)
    for command in ("conclude", "addresses"):
        assert cli.main([command, "--catalog", str(by_hand)]) == 0
    for name in MOVED:
        assert (clone.folder / "catalog" / name).read_bytes() == (by_hand / name).read_bytes()


def test_what_a_contributor_brings_and_is_right_stays(
    pulled: Repository, here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert generated() == 0
    pulled.commit("and what it moves")
    capsys.readouterr()
    assert generated("--since", "HEAD~2", "--patch", "generated.patch") == 0
    assert "They are what the catalog gives: nothing to do." in capsys.readouterr().out
    assert not (here.parent / "generated.patch").exists()


@pytest.mark.parametrize(
    ("name", "rule"),
    [
        ("conclusions/exercises/rope-curl.yaml", "stale-conclusions"),
        ("addresses.txt", "address-list"),
    ],
)
def test_what_a_contributor_brings_and_is_wrong_fails(
    pulled: Repository, here: Path, capsys: pytest.CaptureFixture[str], name: str, rule: str
) -> None:
    generated()
    text = (here / name).read_text(encoding="utf-8")
    (here / name).write_text(text.replace("rope-curl", "crate-curl"), encoding="utf-8")
    pulled.commit("and what it does not move")
    capsys.readouterr()
    assert generated("--since", "HEAD~2", "--patch", "generated.patch") == 1
    told = capsys.readouterr().out
    assert f"catalog/{name}:1:1: error[{rule}]: this generated file came with the change" in told
    assert "take it out of the change (it is then made for you)" in told
    assert not (here.parent / "generated.patch").exists()


def test_part_of_what_moves_may_be_left_out(
    pulled: Repository, here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Who ran `conclude` and not `addresses` is not sent back."""
    assert cli.main(["conclude"]) == 0
    pulled.commit("conclusions alone")
    capsys.readouterr()
    assert generated("--since", "HEAD~2", "--patch", "generated.patch") == 0
    assert "1 generated file follows from this change: `addresses.txt`." in capsys.readouterr().out


def test_nothing_is_made_from_an_unsound_catalog(
    pulled: Repository, here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "exercises" / "rope-curl.yaml").write_text("name: [", encoding="utf-8")
    assert generated("--since", "HEAD^1", "--patch", "generated.patch") == 1
    assert "rope-curl.yaml:1:" in capsys.readouterr().out
    assert pulled("status", "--porcelain") == " M catalog/exercises/rope-curl.yaml\n"


def test_the_summary_says_it_in_plain_words(
    pulled: Repository, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    summary = here.parent / "summary.md"
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(summary))
    assert generated("--since", "HEAD^1", "--patch", "generated.patch") == 0
    told = summary.read_text(encoding="utf-8")
    assert told.startswith("### Generated files\n\n3 generated files follow from this change")
    assert "**Whoever wrote it has nothing to do.**" in told


@pytest.mark.parametrize(
    ("since", "said"),
    [
        ("no-such", "there is no commit `no-such` here"),
        ("--all", "there is no commit `--all` here"),
    ],
)
def test_a_commit_that_is_not_there_is_named(
    pulled: Repository, capsys: pytest.CaptureFixture[str], since: str, said: str
) -> None:
    assert generated(f"--since={since}") == 2
    assert said in capsys.readouterr().err


def test_outside_a_repository_git_says_so(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert generated() == 2
    assert "not a git repository" in capsys.readouterr().err
