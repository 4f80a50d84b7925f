"""Our build against `mkdocs build` of the same pages, already written out as Markdown."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import yaml
from mkdocs.utils.yaml import yaml_load

from build_tools.catalog.load import load
from build_tools.checks.profile import load_profile
from build_tools.evidence.claims.conclude import conclude
from build_tools.movement.length.length import MeanLengths
from build_tools.site import book, frame, hand_written
from build_tools.site.folder import emit

from . import timing

CONTENT = timing.ROOT / "content"


class Prepared(NamedTuple):
    """Two builds as arguments for Python, and the number of pages of the book."""

    ours: list[str]
    plain: list[str]
    pages: int


def prepare(catalog: Path, folder: Path) -> Prepared:
    """Write what the two builds need into ``folder``."""
    loaded = load(catalog)
    written = hand_written.pages(CONTENT)
    conclusions = conclude(loaded, MeanLengths(loaded))
    pages = book.render(loaded, conclusions, load_profile(), written=written)
    emit(pages, CONTENT, folder / "content")
    ours = _command(folder, "ours", CONTENT, [{"handbook": {"catalog": str(catalog)}}])
    plain = _command(folder, "plain", folder / "content", [])
    return Prepared(ours, plain, len(pages.pages))


def _command(folder: Path, name: str, docs: Path, plugins: list) -> list[str]:
    """The command that builds ``docs`` with these plugins alone, and with what ours sets."""
    config = yaml_load((timing.ROOT / "mkdocs.yml").read_text(encoding="utf-8"))
    made = [path.relative_to(docs).as_posix() for path in docs.rglob("*.*")]
    config |= {
        "docs_dir": str(docs),
        "site_dir": str(folder / f"{name}-site"),
        "plugins": plugins,
        "theme": {"name": frame.THEME, "custom_dir": str(frame.TEMPLATES), **frame.theme([])},
        "markdown_extensions": [{name: given} for name, given in frame.EXTENSIONS.items()],
    }
    if not plugins:
        config |= {"extra_css": frame.styles(), "nav": frame.doors(made, [])}
    path = folder / f"{name}.yml"
    path.write_text(yaml.safe_dump(config, sort_keys=False), encoding="utf-8")
    return ["-m", "mkdocs", "build", "--quiet", "--config-file", str(path)]
