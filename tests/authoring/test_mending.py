"""Mending: whatever slips meet, they are mended once and for all, and nothing else changes; a patch is one to others' tools."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from pathlib import Path

import pytest
import yaml
from folders import DEMO
from hypothesis import given, settings
from hypothesis import strategies as st
from slips import LEFT, MENDED

from build_tools.authoring import mending
from build_tools.authoring.mending import mend, unified_diff, with_line_ends
from build_tools.authoring.mends import MENDS, Mended
from build_tools.catalog.finding import Finding, Spot

LINE_ENDS = st.sampled_from(["\n", "\r\n", "\r"])


@pytest.fixture(autouse=True, scope="module")
def _day() -> None:
    """Reviews are judged by one day, for all examples."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SOURCE_DATE_EPOCH", "1796083200")
        yield


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@settings(max_examples=40)
@given(
    names=st.lists(
        st.sampled_from(sorted({**MENDED, **LEFT})), min_size=1, max_size=6, unique=True
    ),
    ends=LINE_ENDS,
)
def test_slips_together_are_mended_once_and_for_all(names: list[str], ends: str) -> None:
    slips = {**MENDED, **LEFT}
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(shutil.copytree(DEMO, Path(scratch) / "catalog"))
        made = []
        for name in names:
            text = (folder / slips[name].file).read_text(encoding="utf-8")
            if slips[name].text in text:  # another slip may have changed it
                slips[name].make(folder)
                made.append(name)
        for name in {slips[name].file for name in made}:
            path = folder / name
            path.write_bytes(path.read_bytes().replace(b"\n", ends.encode()))
        slipped = files(folder)
        first = mend(folder, "catalog")
        after = files(folder)
        # Only files that are told of change, and those with nothing but mendable slips pass.
        told = {each.spot.file.removeprefix("catalog/") for each in first.told}
        assert {name for name in after if after[name] != slipped[name]} == told
        if not set(made) & set(LEFT):
            assert not first.found
            for name in told:
                if name.endswith(".yaml"):
                    assert yaml.safe_load(after[name].decode("utf-8"))
        second = mend(folder, "catalog")
        assert not second.told and files(folder) == after and second.found == first.found


@given(
    lines=st.lists(st.tuples(st.sampled_from("abc"), LINE_ENDS), min_size=1, max_size=8),
    dropped=st.sets(st.integers(0, 7)),
)
def test_lines_that_stay_keep_their_ends(lines: list[tuple[str, str]], dropped: set[int]) -> None:
    named = [(f"{name}{n}", end) for n, (name, end) in enumerate(lines)]
    kept = [pair for n, pair in enumerate(named) if n not in dropped]
    before = "".join(name + end for name, end in named)
    after = "".join(f"{name}\n" for name, _ in kept)
    assert with_line_ends(before, after) == "".join(name + end for name, end in kept)


@given(
    st.lists(st.text("ab\r", max_size=3), max_size=6).map("\n".join),
    st.lists(st.text("ab\r", max_size=3), max_size=6).map("\n".join),
)
@settings(max_examples=25)
def test_a_patch_is_applied_by_git(before: str, after: str) -> None:
    if before == after or not before:
        return
    patch = "".join(unified_diff(before, after, "some/file.yaml"))
    with tempfile.TemporaryDirectory() as scratch:
        path = Path(scratch) / "some" / "file.yaml"
        path.parent.mkdir()
        path.write_bytes(before.encode())
        git = ["git", "-c", "core.autocrlf=false", "apply", "--whitespace=nowarn", "-"]
        subprocess.run(git, input=patch.encode(), cwd=scratch, check=True, timeout=60)
        assert (path.read_bytes() if path.exists() else b"") == after.encode()


def test_a_mend_that_changes_more_than_it_means_is_not_taken(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    MENDED["swap twice"].make(demo)
    before, real = files(demo), MENDS["swap-once"]

    def greedy(*args: object) -> Mended | None:
        made = real(*args)
        return made and made._replace(text=made.text.replace("Sit tall", "Sit small"))

    monkeypatch.setitem(mending.MENDS, "swap-once", greedy)
    assert not mend(demo, "catalog").told and files(demo) == before


def test_a_file_that_could_not_be_read_afterwards_stays(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    MENDED["swap twice"].make(demo)
    before = files(demo)
    in_the_way = Finding("yaml-syntax", Spot("catalog/exercises/crate-curl.yaml", 1, 1), "", "")
    monkeypatch.setattr(mending, "_unreadable", lambda *_: [in_the_way])
    assert not mend(demo, "catalog").told and files(demo) == before


def test_what_a_mend_shows_is_mended_too(demo: Path) -> None:
    """Neither slip alone lets the file be read."""
    before = files(demo)
    MENDED["byte order mark within"].make(demo)
    MENDED["key twice with one value"].make(demo)
    left = mend(demo, "catalog")
    assert files(demo) == before and not left.found
    assert {each.rule for each in left.told} == {"file-encoding", "duplicate-key"}


def test_a_link_is_left_alone(demo: Path, tmp_path: Path) -> None:
    MENDED["swap twice"].make(demo)
    path = demo / "exercises/crate-curl.yaml"
    elsewhere = tmp_path / "elsewhere.yaml"
    path.rename(elsewhere)
    try:
        path.symlink_to(elsewhere)
    except OSError:
        pytest.skip("links need a right here")
    before = elsewhere.read_bytes()
    assert not mend(demo, "catalog").told and elsewhere.read_bytes() == before
