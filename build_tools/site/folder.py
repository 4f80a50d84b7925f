"""The second adapter: the same pages and files, written to a folder of Markdown for any other generator."""

from __future__ import annotations

from pathlib import Path

from .book import Book


def emit(book: Book, content: Path, to: Path) -> int:
    """Write the book and the completed hand-written pages of ``content`` to the folder ``to``.

    Returns the number of files written. Raises ``FileExistsError`` when ``to`` is
    not empty, since a stale page would outlive its entry.
    """
    if to.exists() and any(to.iterdir()):
        raise FileExistsError(f"{to} is not empty; give a new or an empty folder")
    texts = {
        path.relative_to(content).as_posix(): path
        for path in sorted(content.rglob("*"))
        if path.is_file()
    }
    files = {
        uri: book.fill(uri, path.read_text(encoding="utf-8")).encode()
        if path.suffix == ".md"
        else path.read_bytes()
        for uri, path in texts.items()
    }
    files |= {
        uri: book.fill(uri, text).encode() for uri, text in book.written.items() if uri not in files
    }
    files |= {page.uri: page.text.encode() for page in book.pages}
    files |= {file.uri: file.content for file in book.files}
    for room in {uri.rpartition("/")[0] for uri in files}:
        (to / room).mkdir(parents=True, exist_ok=True)
    for uri, data in files.items():
        (to / uri).write_bytes(data)
    return len(files)
