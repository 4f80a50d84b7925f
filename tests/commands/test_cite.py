"""`handbook cite` adds what is new, names what is there, and leaves the file alone when something is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from sample_exports import ALL, NBIB, RIS

from build_tools import cli


@pytest.fixture
def here(demo: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(demo.parent)
    for name, text in ALL.items():
        Path(name).write_text(text, encoding="utf-8")
    return demo / "references.bib"


@pytest.mark.parametrize("name", ALL)
def test_a_record_is_added_once(here: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    before = here.read_text(encoding="utf-8")
    assert cli.main(["cite", name]) == 0
    told = capsys.readouterr().out
    assert "@article{maeo2021," in told and "handbook new study maeo2021" in told
    after = here.read_text(encoding="utf-8")
    assert len(after) > len(before) and "left behind" not in after
    assert cli.main(["cite", name]) == 1
    assert "`maeo2021` has the same DOI" in capsys.readouterr().out
    assert here.read_text(encoding="utf-8") == after


def test_the_check_asks_where_it_was_read(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    cli.main(["cite", "work.ris"])
    capsys.readouterr()
    assert cli.main(["check"]) == 1
    told = capsys.readouterr().out
    assert "error[draft-finished]" in told and "references.bib" in told


def test_a_dry_run_writes_nothing(here: Path) -> None:
    before = here.read_bytes()
    assert cli.main(["cite", "work.ris", "--dry-run"]) == 0
    assert here.read_bytes() == before


@pytest.mark.parametrize(
    ("text", "arguments", "says"),
    [
        ("nonsense", [], "none of the known exports"),
        (RIS + "\n" + RIS.replace("Maeo", "Other"), ["--key", "x2021"], "only one"),
        (NBIB, ["--section", "no such"], "no section"),
    ],
)
def test_what_cannot_be_done_is_said(
    here: Path, text: str, arguments: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    before = here.read_bytes()
    Path("other").write_text(text, encoding="utf-8")
    assert cli.main(["cite", "other", *arguments]) == 2
    assert says in capsys.readouterr().err and here.read_bytes() == before


def test_a_broken_bibliography_is_left_alone(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here.write_text("@article{x", encoding="utf-8")
    assert cli.main(["cite", "work.ris"]) == 2
    assert "mend references.bib first" in capsys.readouterr().err
    assert here.read_text(encoding="utf-8") == "@article{x"
