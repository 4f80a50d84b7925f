"""Conclusions as committed files: what they hold, when they are stale, and what is never touched."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from build_tools.catalog.load import load
from build_tools.committed import files as committed
from build_tools.committed.files import FOLDER, HEADER, FilesWritten
from build_tools.evidence.claims.conclude import conclude

DEMO = Path(__file__).parents[1] / "demo" / "catalog"
CURL = f"{FOLDER}/exercises/crate-curl.yaml"


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo's folder (the other tests here get it loaded)."""
    return Path(shutil.copytree(DEMO, tmp_path / "catalog"))


def texts(root: Path) -> dict[str, str]:
    catalog = load(root, "demo")
    return committed.files(conclude(catalog), catalog)


def stale(root: Path, expected: dict[str, str]) -> list[tuple[str, int, str]]:
    return [
        (f.spot.file, f.spot.line, f.message) for f in committed.stale(expected, load(root, "demo"))
    ]


def test_one_file_for_each_exercise_and_muscle() -> None:
    assert list(texts(DEMO)) == [
        f"{FOLDER}/{name}.yaml"
        for name in ("exercises/cable-curl", "exercises/crate-curl", "muscles/lantern")
    ]


def test_what_a_file_says_of_a_claim() -> None:
    """The demo's p < 0.01 with 17 degrees of freedom is t = 2.898 (any t table): ln(1.14/1.09) = 0.0449, and the interval is
    0.0449 x (1 -+ 2.110/2.898), that is 1.2% to 8.1% more."""
    [grown, felt] = yaml.safe_load(texts(DEMO)[CURL])["claims"]
    assert (grown["claim"], grown["outcome"], grown["says"], grown["basis"], grown["verdict"]) == (
        "crate-curl/1",
        "growth",
        "more than cable-curl",
        "cited",
        "shown",
    )
    [part] = grown["parts"]
    assert part == {
        "part": "lantern/long-head",
        "shape": "more",
        "ratio": 1.05,
        "interval": "not known, only a bound on p",
        "path": "direct",
        "studies": 1,
        "people": 18,
        "certainty": grown["certainty"],
    }
    assert (
        felt["verdict"] == "untested"
        and "certainty" not in felt
        and felt["basis"] == "common practice"
    )


def test_nothing_says_how_studies_differ_where_there_is_only_one() -> None:
    fields = yaml.safe_load(texts(DEMO)[f"{FOLDER}/muscles/lantern.yaml"])["fields"]
    components = [component for field in fields for component in field["components"]]
    assert components and not any({"tau2", "i2"} & component.keys() for component in components)


def test_the_same_catalog_gives_the_same_bytes_in_any_process() -> None:
    program = (
        "import sys, hashlib; from pathlib import Path; from build_tools.catalog.load import load\n"
        "from build_tools.committed import files as committed; from build_tools.evidence.conclude import conclude\n"
        "catalog = load(Path(sys.argv[1]), 'demo'); texts = committed.files(conclude(catalog), catalog)\n"
        "print(hashlib.sha256(repr(texts).encode()).hexdigest())"
    )
    seen = {
        subprocess.run(
            [sys.executable, "-c", program, str(DEMO)],
            capture_output=True,
            text=True,
            check=True,
            timeout=120,
            env={
                **os.environ,
                "PYTHONHASHSEED": seed,
                "PYTHONPATH": str(Path(__file__).parents[2]),
            },
        ).stdout
        for seed in ("1", "2")
    }
    assert len(seen) == 1


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
    curl.write_text(curl.read_text().replace("verdict: shown", "verdict: leaning"))
    lantern.unlink()
    (demo / FOLDER / "exercises" / "retired.yaml").write_text(HEADER + "exercise: retired\n")
    line = expected[CURL].splitlines().index("    verdict: shown") + 1
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
