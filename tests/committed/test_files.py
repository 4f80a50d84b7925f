"""Conclusions as committed files: when they are stale, and what is never touched."""

from __future__ import annotations

from pathlib import Path

import pytest
from folders import DEMO

from build_tools.catalog.load import load
from build_tools.committed import files as committed
from build_tools.committed.files import FOLDER, HEADER, FilesWritten
from build_tools.evidence.claims.conclude import conclude

CURL = f"{FOLDER}/exercises/crate-curl.yaml"


def texts(root: Path) -> dict[str, str]:
    catalog = load(root, "demo")
    return committed.files(conclude(catalog), catalog)


def stale(root: Path, expected: dict[str, str]) -> list[tuple[str, int, str]]:
    return [
        (f.spot.file, f.spot.line, f.message) for f in committed.stale(expected, load(root, "demo"))
    ]


def test_writing_twice_writes_once(demo: Path) -> None:
    expected = texts(demo)
    for path in (demo / FOLDER).rglob("*.yaml"):
        path.unlink()
    assert committed.write(expected, demo) == FilesWritten(3, 0, 0)
    before = {path: path.stat().st_mtime_ns for path in demo.rglob("*")}
    assert committed.write(expected, demo) == FilesWritten(0, 0, 3)
    assert {path: path.stat().st_mtime_ns for path in demo.rglob("*")} == before
    assert stale(demo, expected) == []


def test_each_file_that_is_not_right_is_one_finding(demo: Path) -> None:
    expected = texts(demo)
    curl, lantern = demo / CURL, demo / FOLDER / "muscles" / "lantern.yaml"
    curl.write_text(curl.read_text().replace("finding: hinted", "finding: found"))
    lantern.unlink()
    (demo / FOLDER / "exercises" / "retired.yaml").write_text(HEADER + "exercise: retired\n")
    line = expected[CURL].splitlines().index("    finding: hinted") + 1
    assert stale(demo, expected) == [
        (f"demo/{CURL}", line, "from this line on the catalog concludes something else"),
        (f"demo/{FOLDER}/exercises/retired.yaml", 1, "this file belongs to no exercise or muscle"),
        (f"demo/{FOLDER}/muscles/lantern.yaml", 1, "this file is missing"),
    ]
    assert committed.write(expected, demo) == FilesWritten(2, 1, 1)
    assert stale(demo, expected) == []


def test_a_catalog_without_the_folder_has_one_finding(demo: Path) -> None:
    (demo / FOLDER).rename(demo.parent / "elsewhere")
    assert stale(demo, texts(demo)) == [(f"demo/{FOLDER}", 1, "the conclusions were never written")]


def test_a_cut_file_is_stale_at_its_end(demo: Path) -> None:
    expected = texts(demo)
    (demo / CURL).write_text("".join(expected[CURL].splitlines(keepends=True)[:5]))
    assert stale(demo, expected) == [
        (f"demo/{CURL}", 5, "from this line on the catalog concludes something else")
    ]


def test_line_breaks_of_another_system_change_nothing(demo: Path) -> None:
    (demo / CURL).write_bytes((demo / CURL).read_bytes().replace(b"\n", b"\r\n"))
    assert stale(demo, texts(demo)) == []


@pytest.mark.parametrize("content", [b"my notes\n", b"\xff\xfe"])
def test_what_was_not_written_here_is_named_and_kept(demo: Path, content: bytes) -> None:
    notes = demo / FOLDER / "exercises" / "notes.txt"
    notes.write_bytes(content)
    expected = texts(demo)
    assert committed.write(expected, demo).removed == 0 and notes.read_bytes() == content
    [finding] = committed.stale(expected, load(demo, "demo"))
    assert finding.spot.file == f"demo/{FOLDER}/exercises/notes.txt" and "move it" in finding.help


def test_a_folder_that_is_a_link_is_not_written_through(demo: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    folder = demo / FOLDER / "exercises"
    for path in folder.iterdir():
        path.unlink()
    folder.rmdir()
    folder.symlink_to(outside)
    with pytest.raises(OSError, match="exercises is a link"):
        committed.write(texts(demo), demo)
    assert not list(outside.iterdir())


def test_a_file_is_replaced_whole_or_not_at_all(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = texts(demo)
    before = (demo / CURL).read_text()
    monkeypatch.setattr("os.replace", lambda *_: (_ for _ in ()).throw(OSError("the power went")))
    with pytest.raises(OSError, match="power"):
        committed.write({**expected, CURL: HEADER + "exercise: crate-curl\n"}, demo)
    assert (demo / CURL).read_text() == before
    monkeypatch.undo()
    assert stale(demo, expected) == [] and committed.write(expected, demo) == FilesWritten(0, 0, 3)


def test_the_demo_is_fresh() -> None:
    """After a wanted change run ``handbook conclude --catalog tests/demo/catalog`` and read the difference."""
    assert stale(DEMO, texts(DEMO)) == []
