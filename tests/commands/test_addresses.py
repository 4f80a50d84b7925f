"""`handbook addresses` adds what is new, says what would die, and takes nothing out."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools import cli
from build_tools.committed.addresses import FILE


def lines(root: Path) -> list[str]:
    return (root / FILE).read_text(encoding="utf-8").splitlines()


def test_the_command(
    demo: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(demo.parent)
    (demo / FILE).unlink()
    assert cli.main(["addresses", "--check"]) == 1
    assert capsys.readouterr().out.startswith(
        "catalog/addresses.txt:1:1: error[address-list]: the published addresses were never listed\n"
        "  help: run `handbook addresses` and commit what it writes\n"
    )
    assert not (demo / FILE).exists()
    assert cli.main(["addresses"]) == 0
    held = len(lines(demo)) - 1
    assert capsys.readouterr().err == f"{held} added, {held} listed in catalog/addresses.txt\n"
    assert cli.main(["addresses", "--check"]) == 0


def test_a_file_that_cannot_be_read_is_not_taken_for_a_lost_entry(
    demo: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(demo.parent)
    (demo / "exercises" / "crate-curl.yaml").write_text("name: [", encoding="utf-8")
    before = lines(demo)
    assert cli.main(["addresses"]) == 1
    out, err = capsys.readouterr()
    assert (
        "error[yaml-syntax]" in out
        and "dead-address" not in out
        and "no address was compared" in err
    )
    assert lines(demo) == before


def test_a_hand_written_page_is_listed_and_its_death_is_seen(
    demo: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What MkDocs makes of a folder's files, by its manual: a README is the index, hidden files and `templates/` are no pages."""
    monkeypatch.chdir(demo.parent)
    pages = demo.parent / "content"
    for name in ("index.md", "faq.md", "team/README.md"):
        (pages / name).parent.mkdir(parents=True, exist_ok=True)
        (pages / name).write_text("# Page\n")
    for name in (".hidden.md", "templates/note.md"):
        (pages / name).parent.mkdir(exist_ok=True)
        (pages / name).write_text("# No page\n")
    assert cli.main(["addresses", "--check"]) == 1
    assert "2 addresses are not listed yet: `/faq/`, `/team/`" in capsys.readouterr().out
    assert cli.main(["addresses"]) == 0
    assert cli.main(["check", "--all", "--strict"]) == 0
    (pages / "faq.md").rename(pages / "questions.md")
    capsys.readouterr()
    assert cli.main(["check", "--all"]) == 1
    out = capsys.readouterr().out
    assert "error[dead-address]: `/faq/` was published and would no longer answer" in out
    assert "`/questions/`" in out
    assert cli.main(["addresses", "--check", "--content", "nowhere"]) == 2
    assert "there is no folder `nowhere`" in capsys.readouterr().err
