"""What ``mkdocs.yml`` may say of a handbook, what the engine sets there so that nobody has to know it, and what it demands."""

from __future__ import annotations

import html
import logging
from pathlib import Path

from mkdocs.config import config_options as c
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from .. import frame, hand_written, looks
from ..book import Book

_THEME_FAVICON = "assets/images/favicon.png"


class HandbookConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs has no types
    """What ``mkdocs.yml`` may say under ``handbook:``."""

    enabled = c.Type(bool, default=True)
    catalog = c.Dir(exists=True, default="catalog")
    """The catalog folder, relative to mkdocs.yml."""
    strict = c.Type(bool, default=False)
    """Whether warnings of the catalog's checks stop the build, as ``--strict`` makes them."""
    offline = c.Type(bool, default=True)
    """Whether readers' devices keep cue sheets and handouts for use without a network."""


def complete(config: MkDocsConfig) -> None:
    """Set what the pages need; what a handbook says of its own is kept where it does no harm. Raises ``PluginError``."""
    if not config.use_directory_urls:
        raise PluginError("the handbook's addresses need `use_directory_urls: true`")
    if config.theme.name == frame.THEME:
        # After a handbook's own templates, before the theme's.
        config.theme.dirs.insert(bool(config.theme.custom_dir), str(frame.TEMPLATES))
        for key, value in frame.theme(config.theme["features"]).items():
            config.theme[key] = value
        for key in ("logo", "favicon"):
            if config.theme.get(key) in (None, _THEME_FAVICON):
                config.theme[key] = looks.MARK
    for name, settings in frame.EXTENSIONS.items():
        if name not in config.markdown_extensions:
            config.markdown_extensions.append(name)
        config.mdx_configs[name] = {**settings, **config.mdx_configs.get(name, {})}
    config.extra_css[:0] = frame.styles()
    config.extra.setdefault("generator", False)
    config.validation.nav.omitted_files = logging.DEBUG  # entries stand behind their lists
    for kind in ("anchors", "absolute_links", "unrecognized_links"):
        setattr(config.validation.links, kind, logging.WARNING)


def complete_from(config: MkDocsConfig, book: Book) -> None:
    """Set what only the catalog tells, once it is read: what the theme prints as it stands, and the doors."""
    config.site_description = config.site_description or book.shelf.handbook.tagline
    for name in frame.PRINTED:
        setattr(config, name, html.escape(config[name]) if config[name] else None)
    if config.nav is None:
        config.nav = frame.doors(book.resources, book.written)


def demanded(config: MkDocsConfig, book: Book) -> list[str]:
    """What a handbook must set right itself, one sentence each."""
    shelf, settings = book.shelf, shown(Path(config.config_file_path or "mkdocs.yml"))
    found = hand_written.demands(shelf, book.written, shown(Path(config.docs_dir)))
    if config.theme.name != frame.THEME:
        found.append(
            f"{settings}: the pages are made for another theme; write `theme: {frame.THEME}`"
        )
    if config.site_name != shelf.handbook.title:
        found.append(
            f"{settings}: `site_name` is `{config.site_name}`, and the title in handbook.yaml is `{shelf.handbook.title}`; "
            "write the same in both"
        )
    return found + [
        f"{settings}: take the plugin `{name}` out: {why}"
        for name, why in frame.INSTEAD.items()
        if {name, f"{frame.THEME}/{name}"} & config.plugins.keys()
    ]


def read_content(config: MkDocsConfig) -> dict[str, str]:
    """The hand-written pages, as uri -> Markdown. Raises ``PluginError``."""
    folder = Path(config.docs_dir)
    if wrong := hand_written.links(folder, shown(folder)):
        raise PluginError(f"{wrong}; {kept(Path(config.site_dir))}")
    try:
        return hand_written.pages(folder)
    except (OSError, UnicodeDecodeError) as error:
        raise PluginError(f"a page of the content folder cannot be read: {error}") from error


def shown(path: Path) -> str:
    """A path as people see it from where they stand."""
    try:
        return path.relative_to(Path.cwd()).as_posix()
    except ValueError:
        return path.as_posix()


def kept(folder: Path) -> str:
    """What became of the site, as long as nothing cleaned its folder."""
    stands = folder.is_dir() and any(folder.iterdir())
    return f"the site in {shown(folder)} stays as it was" if stands else "nothing was written"
