"""`handbook start`: whole or not at all, and what it says when it cannot."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools import cli
from build_tools.committed import addresses


def files(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture(autouse=True)
def _there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_a_new_folder_holds_a_handbook_that_passes_its_checks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["start", "berry-lane"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("Berry lane stands in berry-lane.")
    assert told.endswith(
        "  cd berry-lane\n  python -m pip install -r requirements.txt\n  python -m mkdocs serve\n"
    )
    assert {"README.md", "mkdocs.yml", ".gitignore", ".github/workflows/publish.yml"} <= files(
        tmp_path / "berry-lane"
    )
    monkeypatch.chdir("berry-lane")
    for command in (["check"], ["conclude", "--check"], ["addresses", "--check"]):
        assert cli.main([*command, "--strict"]) == 0, capsys.readouterr()


def test_a_folder_under_git_is_empty_enough(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / ".git" / "HEAD").write_text("ref: refs/heads/main\n")
    assert cli.main(["start", ".", "--title", "Ours"]) == 0
    assert (tmp_path / ".git" / "HEAD").read_text() == "ref: refs/heads/main\n"
    assert "cd " not in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["full"], "`full` holds notes.txt; name a new or empty folder"),
        (["full/notes.txt"], "is no folder; name a new one"),
        (["new", "--title", "<b>"], "catalog/handbook.yaml:1: "),
        (["new", "--engine", "gone.whl"], "--engine: there is no wheel `gone.whl`"),
    ],
    ids=["full folder", "file", "title", "engine"],
)
def test_nothing_is_written_where_it_cannot_be(
    tmp_path: Path, arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "notes.txt").write_text("mine")
    assert cli.main(["start", *arguments]) == 2
    assert words in capsys.readouterr().err
    assert files(tmp_path) == {"full/notes.txt"} and not (tmp_path / "new").exists()


def test_a_slip_half_way_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(addresses, "add", full)
    assert cli.main(["start", "new/deeper"]) == 2
    assert "No space left on device" in capsys.readouterr().err
    assert files(tmp_path) == set()
