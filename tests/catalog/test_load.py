"""A whole catalog folder: everything wrong with it in one run, and nothing that escapes."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest
from folders import DEMO
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.load import Catalog, load


def wrong(catalog: Catalog) -> list[tuple[str, str, int]]:
    return sorted((f.rule, f.spot.file, f.spot.line) for f in catalog.findings)


def test_the_demo_catalog_is_sound() -> None:
    catalog = load(DEMO, "demo")
    assert (
        catalog.findings == []
        and not catalog.broken
        and catalog.is_whole("exercises", "references")
    )
    assert list(catalog.exercises) == ["cable-curl", "crate-curl"]
    assert (
        catalog.part("lantern/long-head").everyday == "long lamper"
        and catalog.part("lantern").everyday == "back of the lamp"
    )
    assert catalog.part("lantern/none") is None and catalog.part("none") is None
    assert catalog.part_refs() == ["lantern", "lantern/long-head", "lantern/short-head"]
    crate = catalog.exercises["crate-curl"]
    assert crate.spot("swaps", 0) == ("demo/exercises/crate-curl.yaml", 43, 9)
    assert crate.spot("swaps", key=True) == ("demo/exercises/crate-curl.yaml", 43, 1)


def test_all_errors_of_all_files_in_one_run(demo: Path) -> None:
    (demo / "handbook.yaml").write_text("title: [\n")
    (demo / "vocabulary.yaml").unlink()
    (demo / "exercises" / "crate-curl.yaml").write_text("nme: x\n")
    (demo / "muscles" / "lantern.yaml").write_bytes(b"\xff")
    (demo / "studies" / "wick2030.yaml").write_text("a: &x 1\n")
    with (demo / "references.bib").open("a") as bib:
        bib.write("@article{third2032,\n  author = {Third, T},\n")
    catalog = load(demo, "c")
    # name, equipment, set_credit, movement, cues, faults, cautions, reviewed
    exercise = [("missing-key", "c/exercises/crate-curl.yaml", 1)] * 8
    assert wrong(catalog) == sorted(
        [
            *exercise,
            ("unknown-key", "c/exercises/crate-curl.yaml", 1),
            ("yaml-syntax", "c/handbook.yaml", 1),
            ("missing-file", "c/vocabulary.yaml", 1),
            ("file-encoding", "c/muscles/lantern.yaml", 1),
            ("yaml-alias", "c/studies/wick2030.yaml", 1),
            ("bibtex-syntax", "c/references.bib", catalog.findings[-1].spot.line),
        ]
    )
    assert catalog.broken == {
        ("handbook", "handbook"),
        ("vocabulary", "vocabulary"),
        ("exercises", "crate-curl"),
        ("muscles", "lantern"),
        ("studies", "wick2030"),
        ("references", "third2032"),
    }
    assert catalog.exists("exercises", "crate-curl") and not catalog.exists("exercises", "no-curl")
    assert list(catalog.exercises) == ["cable-curl"] and not catalog.is_whole("exercises")


@pytest.mark.parametrize(
    ("folder", "name"),
    [
        ("exercises", "Row.yaml"),
        ("exercises", "row.yml"),
        ("exercises", "row"),
        ("exercises", "seated_row.yaml"),
        ("exercises", "row--two.yaml"),
        ("exercises", "-row.yaml"),
        ("exercises", "1row.yaml"),
        ("exercises", "<script>.yaml"),
        ("exercises", "rów.yaml"),
        ("exercises", "row\n.yaml"),
        ("exercises", "row.yaml.yaml"),
        ("exercises", "a" * 65 + ".yaml"),
        ("studies", "smith-2024.yaml"),
    ],
)
def test_a_file_name_that_is_no_id(demo: Path, folder: str, name: str) -> None:
    (demo / folder / name).write_text("a: 1\n")
    assert wrong(load(demo, "c")) == [("file-name", f"c/{folder}/{name}", 1)]


def test_folders_and_links_are_no_entries(demo: Path) -> None:
    (demo / "exercises" / "folder.yaml").mkdir()
    (demo / "exercises" / "link.yaml").symlink_to(demo / "exercises" / "crate-curl.yaml")
    (demo / "exercises" / "lost.yaml").symlink_to(demo / "exercises" / "nowhere.yaml")
    (demo / "moved.yaml").symlink_to(demo / "handbook.yaml")
    assert wrong(load(demo, "c")) == [
        ("file-unreadable", f"c/{name}.yaml", 1)
        for name in ("exercises/folder", "exercises/link", "exercises/lost", "moved")
    ]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_not_waited_for(demo: Path) -> None:
    os.mkfifo(demo / "exceptions.yaml")
    assert wrong(load(demo, "c")) == [("file-unreadable", "c/exceptions.yaml", 1)]


def test_stray_files_are_named_with_a_suggestion(demo: Path) -> None:
    (demo / "move.yaml").write_text("")
    (demo / "exercise").mkdir()
    (demo / ".hidden").write_text("")
    catalog = load(demo, "c")
    assert [(f.rule, f.spot.file, f.help) for f in catalog.findings] == [
        ("stray-file", "c/exercise", "did you mean `exercises`?"),
        ("stray-file", "c/move.yaml", "did you mean `moved.yaml`?"),
    ]


def test_what_is_no_folder(demo: Path, tmp_path: Path) -> None:
    assert wrong(load(tmp_path / "none", "c")) == [("missing-file", "c", 1)]
    shutil.rmtree(demo / "studies")
    (demo / "studies").write_text("")
    catalog = load(demo, "c")
    assert wrong(catalog) == [("file-unreadable", "c/studies", 1)] and not catalog.is_whole(
        "studies"
    )


def test_a_catalog_without_some_folders_is_sound(demo: Path) -> None:
    shutil.rmtree(demo / "studies")
    assert load(demo).findings == []


def test_findings_name_files_as_asked(demo: Path) -> None:
    (demo / "handbook.yaml").unlink()
    assert load(demo).findings[0].spot.file == f"{demo.as_posix()}/handbook.yaml"
    assert load(demo, "catalog").findings[0].spot.file == "catalog/handbook.yaml"


@given(
    st.one_of(
        st.binary(max_size=80),
        st.text(st.sampled_from("abnomue:- []{}\n\"'1.&*!#|>"), max_size=80).map(str.encode),
    )
)
def test_any_bytes_as_an_entry_never_raise(
    tmp_path_factory: pytest.TempPathFactory, octets: bytes
) -> None:
    root = tmp_path_factory.getbasetemp() / "any"
    for folder in ("exercises", "muscles", "studies"):
        (root / folder).mkdir(parents=True, exist_ok=True)
        (root / folder / "any.yaml").write_bytes(octets)
    for name in (
        "handbook.yaml",
        "vocabulary.yaml",
        "references.bib",
        "moved.yaml",
        "exceptions.yaml",
    ):
        (root / name).write_bytes(octets)
    catalog = load(root, "c")
    # No random text is an exercise; the optional files may be empty.
    required = {
        "c/exercises/any.yaml",
        "c/muscles/any.yaml",
        "c/studies/any.yaml",
        "c/handbook.yaml",
    }
    assert required <= {f.spot.file for f in catalog.findings}
    assert all(
        f.rule and f.message and f.help and f.spot.line > 0 and f.spot.column > 0
        for f in catalog.findings
    )
