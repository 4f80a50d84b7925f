"""The folder of Markdown holds what the plugin would show."""

from __future__ import annotations

from pathlib import Path

import pytest
from folders import ROOT

from build_tools.site.book import Book
from build_tools.site.folder import emit


def test_it_writes_every_page_and_file(demo_book: Book, tmp_path: Path) -> None:
    to = tmp_path / "out"
    written = emit(demo_book, ROOT / "content", to)
    paths = {path.relative_to(to).as_posix() for path in to.rglob("*") if path.is_file()}
    assert len(paths) == written
    assert {page.uri for page in demo_book.pages} | {file.uri for file in demo_book.files} < paths
    assert "<!-- handbook:" not in (to / "index.md").read_text(encoding="utf-8")
    assert 'href="muscles/lantern/long-head/"' in (to / "index.md").read_text(encoding="utf-8")


def test_it_leaves_a_folder_with_files_alone(demo_book: Book, tmp_path: Path) -> None:
    (tmp_path / "mine.md").write_text("mine")
    with pytest.raises(FileExistsError, match="not empty"):
        emit(demo_book, ROOT / "content", tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.md"]


def test_an_unknown_passage_is_named(demo_book: Book) -> None:
    with pytest.raises(ValueError, match=r"index\.md: no passage is called `contnts`"):
        demo_book.fill("index.md", "<!-- handbook: contnts -->")
