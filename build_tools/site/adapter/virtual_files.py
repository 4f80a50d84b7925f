"""The handbook's pages and files as virtual files of MkDocs, past its Markdown: nothing is written into the content folder."""

from __future__ import annotations

import os
import posixpath
from functools import partial
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import get_toc

from ..book import Book, is_page
from ..ready import HeadingConverter

#: Megabytes that no page asks for: the theme's own search, and what only its makers read.
_THEME_SEARCH = ("assets/javascripts/lunr/", "assets/javascripts/workers/")
_THEME_MAPS = (".min.js.map", ".min.css.map")


def drop_theme_files(files: Files) -> None:
    """Leave out what the theme ships and no page asks for."""
    for file in list(files):
        if file.src_uri.startswith(_THEME_SEARCH) or file.src_uri.endswith(_THEME_MAPS):
            files.remove(file)


def declare(files: Files, config: MkDocsConfig, book: Book, catalog: str, waits: bool) -> None:
    """Add all that the book holds, each page editable at its YAML in the folder ``catalog``; empty if its content waits.

    Raises ``PluginError`` for a name that the content folder has, too.
    """
    try:
        to_catalog = Path(os.path.relpath(catalog, config.docs_dir)).as_posix()
    except ValueError:  # another drive on Windows: no link leads there
        to_catalog = ""
    for uri, text in book.written.items():
        if files.get_file_from_path(uri) is None:
            add(files, config, uri, "" if waits else book.fill(uri, text))
    texts = {} if waits else {page.uri: page.text for page in book.pages}
    for uri, resource in book.resources.items():
        if is_page(uri):
            file = add(files, config, uri, texts.get(uri, ""))
            edit = resource.edit
            file.edit_uri = posixpath.join(to_catalog, edit) if edit and to_catalog else None
    if not waits:
        for asset in book.files:
            add(files, config, asset.uri, asset.content)
        return
    for uri in book.resources:
        if uri.endswith("/index.html"):  # what the navigation may lead to
            add(files, config, uri, b"")


def add(files: Files, config: MkDocsConfig, uri: str, content: str | bytes) -> File:
    """Add one. Raises ``PluginError`` for a name that the content folder has, too."""
    if files.get_file_from_path(uri) is not None:
        raise PluginError(
            f"{uri} stands in the content folder, and the handbook makes a page of that name; rename one"
        )
    file = File.generated(config, uri, content=content)
    files.append(file)
    return file


def render_ready(page: Page, converter: HeadingConverter) -> None:
    """Have ``page`` rendered without Markdown: it is HTML already."""
    page.render = partial(_render, page, converter)  # type: ignore[method-assign]


def leave_out(page: Page) -> None:
    """Have ``page`` not rendered: it is made on demand."""
    page.render = partial(_leave_out, page)  # type: ignore[method-assign]


def render_written(page: Page) -> None:
    """Have ``page`` rendered as MkDocs does."""
    page.__dict__.pop("render", None)


def _render(page: Page, converter: HeadingConverter, config: MkDocsConfig, files: Files) -> None:
    """What MkDocs does to a page's Markdown, for one that is HTML already."""
    assert page.markdown is not None
    ready = converter.convert(page.markdown)
    page.content, page.present_anchor_ids = ready.html, set(ready.anchors)
    page.toc = get_toc(list(ready.toc))  # type: ignore[arg-type]


def _leave_out(page: Page, config: MkDocsConfig, files: Files) -> None:
    page.content, page.toc = "", get_toc([])
