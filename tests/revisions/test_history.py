"""Files are read as git holds them. Git itself, asked another way, is the reference."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest
from repositories import Clone

from build_tools.revisions.history import History, NoRevision


@pytest.fixture
def clone(demo: Path) -> Clone:
    return Clone(demo.parent)


def unpacked(clone: Clone, asked: str, target: Path) -> dict[str, bytes]:
    history = History.around(clone.catalog)
    history.unpack(history.revision(asked), target)
    files = (path for path in target.rglob("*") if path.is_file())
    return {path.relative_to(target).as_posix(): path.read_bytes() for path in files}


def test_every_file_is_byte_for_byte_what_git_shows(clone: Clone, tmp_path: Path) -> None:
    """Attributes that change what is checked out or archived change nothing here (gitattributes(5))."""
    (clone.folder / ".gitattributes").write_text(
        "*.yaml text eol=crlf export-subst\n*.bib export-ignore\n"
    )
    (clone.catalog / "README.md").write_bytes(b"$Format:%H$ \xff\r\n")
    clone.commit()
    found = unpacked(clone, "HEAD", tmp_path / "old")
    listed = clone.git("ls-tree", "-r", "--name-only", "HEAD:catalog").split()
    assert sorted(found) == sorted(listed)
    for path, data in found.items():
        shown = subprocess.run(
            ["git", "cat-file", "blob", f"HEAD:catalog/{path}"],
            cwd=clone.folder,
            check=True,
            capture_output=True,
        )
        assert shown.stdout == data


def test_links_and_hidden_files_are_left_out(clone: Clone, tmp_path: Path) -> None:
    if os.name == "nt":
        pytest.skip("links need rights on Windows")
    (clone.catalog / "exercises" / "out.yaml").symlink_to("/etc/passwd")
    (clone.catalog / ".new").write_text("x")
    clone.commit()
    found = unpacked(clone, "HEAD", tmp_path / "old")
    assert not {"exercises/out.yaml", ".new"} & found.keys()


def test_a_name_that_would_lead_out_of_the_folder_is_left_out(clone: Clone, tmp_path: Path) -> None:
    """Git refuses to check out such a tree, but holds it: made with `git mktree`."""
    blob = clone.git("rev-parse", "HEAD:catalog/handbook.yaml").strip()
    tree = subprocess.run(
        ["git", "mktree"],
        cwd=clone.folder,
        check=True,
        capture_output=True,
        input=f"100644 blob {blob}\thandbook.yaml\n100644 blob {blob}\tC:evil.yaml\n".encode(),
    ).stdout.decode().strip()  # fmt: skip
    top = subprocess.run(
        ["git", "mktree"],
        cwd=clone.folder,
        check=True,
        capture_output=True,
        input=f"040000 tree {tree}\tcatalog\n".encode(),
    ).stdout.decode().strip()  # fmt: skip
    commit = clone.git("commit-tree", top, "-m", "odd").strip()
    assert unpacked(clone, commit, tmp_path / "old").keys() == {"handbook.yaml"}


def test_a_catalog_at_the_top_of_its_repository(demo: Path, tmp_path: Path) -> None:
    other = Clone(demo.parent)  # holds catalog/; a second one holds the catalog itself
    other.git("init", "--quiet", "catalog")
    other.folder = demo
    commit = other.commit()
    history = History.around(demo)
    assert history.inside == ""
    history.unpack(history.revision(commit), tmp_path / "old")
    assert (tmp_path / "old" / "handbook.yaml").read_bytes() == (
        demo / "handbook.yaml"
    ).read_bytes()


def test_a_revision_is_called_as_it_was_asked_for(clone: Clone) -> None:
    commit = clone.git("rev-parse", "HEAD").strip()
    day = clone.git("log", "-1", "--format=%cs").strip()
    history = History.around(clone.catalog / "exercises" / "nowhere")
    assert history.inside == "catalog/exercises/nowhere"
    assert str(history.revision("main")) == f"main ({commit[:9]} of {day})"
    assert str(history.revision(commit[:12])) == f"{commit[:9]} of {day}"


@pytest.mark.parametrize(
    "asked", ["--help", "-x", "", "main..main", "HEAD^{tree}", ":/nothing such"]
)
def test_what_is_no_commit_is_refused(clone: Clone, asked: str) -> None:
    with pytest.raises(NoRevision, match="there is no revision"):
        History.around(clone.catalog).revision(asked)


def test_files_that_changed_since_are_those_that_git_names(clone: Clone) -> None:
    history = History.around(clone.catalog)
    before = history.revision("HEAD")
    (clone.catalog / "exercises" / "cable-curl.yaml").write_text("x")
    clone.commit()
    (clone.catalog / "studies" / "wick2030.yaml").write_text("x")
    found = history.changed_below(before, clone.catalog / "exercises", clone.catalog / "studies")
    assert (
        found
        == clone.git(
            "diff", "--name-only", before.commit, "--", "catalog/exercises", "catalog/studies"
        ).split()
    )
    assert history.changed_below(before, Path(os.sep)) == []
