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
