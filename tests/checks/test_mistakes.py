"""Every slip of the table is told at its line, in words that mend it, and fails; what is rightly let through passes.

The shipped catalog is copied once, as hard links; a row replaces one file of the copy. What did not change is not read
or reckoned again, so that the table stays quick.
"""

from __future__ import annotations

import gc
import json
import os
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from mistakes import MISTAKES, Mistake, Told

from build_tools import cli
from build_tools.catalog import load as loading

SHIPPED = Path(__file__).parents[2] / "catalog"
PARAMETERS = [
    pytest.param(
        mistake,
        id=mistake.name,
        marks=pytest.mark.xfail(reason=mistake.until, strict=True) if mistake.until else (),
    )
    for mistake in MISTAKES
]


@pytest.fixture(scope="module")
def links(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shipped catalog without its conclusions, as hard links (as a copy on another disk)."""
    folder = tmp_path_factory.mktemp("shipped") / "catalog"
    shutil.copytree(
        SHIPPED, folder, ignore=shutil.ignore_patterns("conclusions"), copy_function=_link
    )
    return folder


def _link(source: str, target: str) -> None:
    try:
        os.link(source, target)
    except OSError:
        shutil.copy2(source, target)


@pytest.fixture(scope="module")
def newest(links: Path) -> date:
    """The day of the newest review: a test must not begin to fail because time passes."""
    catalog = loading.load(links, "catalog")
    return max(entry.data.reviewed for entry in catalog.exercises.values())


@pytest.fixture(scope="module")
def kept() -> loading.FileMemory:
    """What was read of files that no row has changed; what is found of an entry is kept with it."""
    return loading.FileMemory()


@pytest.fixture
def catalog(
    links: Path, newest: date, kept: loading.FileMemory, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Path]:
    """A copy that a row may change, under the name `catalog` in the present folder. It is put right afterwards."""
    monkeypatch.chdir(links.parent)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str((newest - date(1970, 1, 1)).days * 86400))
    monkeypatch.setattr(loading, "FileMemory", lambda: kept)
    yield links
    _put_right(links)
    gc.freeze()  # what is kept is no garbage, and would be searched for some at every row


def _put_right(folder: Path) -> None:
    """Undo what a row did to the copy."""
    for path in sorted(folder.rglob("*"), reverse=True):
        original = SHIPPED / path.relative_to(folder)
        if not original.exists():
            path.rmdir() if path.is_dir() and not path.is_symlink() else path.unlink()
    for original in SHIPPED.rglob("*"):
        path = folder / original.relative_to(SHIPPED)
        if (
            original.is_file()
            and "conclusions" not in original.parts
            and not (path.exists() and path.samefile(original))
        ):
            path.unlink(missing_ok=True)
            _link(str(original), str(path))


def checked(capsys: pytest.CaptureFixture[str]) -> tuple[int, list[dict[str, Any]]]:
    """Exit status and findings of the command, warnings included."""
    status = cli.main(["check", "--strict", "--format", "json"])
    return status, json.loads(capsys.readouterr().out)["findings"]


def test_the_copy_itself_passes(catalog: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert checked(capsys) == (0, [])


@pytest.mark.parametrize("mistake", PARAMETERS)
def test_mistake(mistake: Mistake, catalog: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mistake.change(catalog)
    status, findings = checked(capsys)
    if mistake.told is None:
        assert (status, findings) == (0, [])
        return
    assert status == 1 and len(findings) <= mistake.told.most, findings
    assert any(_is_told(mistake.told, finding, catalog) for finding in findings), findings


def _is_told(told: Told, finding: dict[str, Any], catalog: Path) -> bool:
    if (finding["rule"], finding["file"]) != (told.rule, f"catalog/{told.file}"):
        return False
    said = f"{finding['message']}\n{finding['help']}"
    if not all(word in said for word in told.words):
        return False
    if not told.at:
        return finding["line"] == 1
    lines = (catalog / told.file).read_text(encoding="utf-8").split("\n")
    return told.at in lines[finding["line"] - 1] + "\n"


def test_every_row_has_its_own_name_and_few_are_let_through() -> None:
    assert len({mistake.name for mistake in MISTAKES}) == len(MISTAKES) >= 127
    assert sum(mistake.told is None for mistake in MISTAKES) == 9
    assert all(mistake.told.words for mistake in MISTAKES if mistake.told)
