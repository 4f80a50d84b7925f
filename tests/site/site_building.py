"""Renders and builds catalogs for the tests of this folder."""

from __future__ import annotations

import logging
from pathlib import Path

import yaml
from folders import ROOT, SHIPPED
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.utils.yaml import yaml_load

from build_tools.catalog.load import Catalog
from build_tools.checks.profile import load_profile
from build_tools.evidence.claims.conclude import conclude
from build_tools.movement.length.length import MeanLengths
from build_tools.site import book

#: The pages written by hand beside the shipped catalog, and beside all invented ones.
CONTENT, DEMO_CONTENT = ROOT / "content", ROOT / "tests" / "demo" / "content"


def render(catalog: Catalog) -> book.Book:
    """The book of a catalog, unchecked."""
    return book.render(catalog, conclude(catalog, MeanLengths(catalog)), load_profile())


def configuration(folder: Path, catalog: Path, **changes: object) -> Path:
    """The shipped mkdocs.yml, written to ``folder`` for another catalog, with changes."""
    config = yaml_load((ROOT / "mkdocs.yml").read_text(encoding="utf-8"))
    config["docs_dir"] = str(CONTENT if catalog == SHIPPED else DEMO_CONTENT)
    # The same site of another catalog has that one's title.
    title = yaml_load((catalog / "handbook.yaml").read_text(encoding="utf-8"))["title"]
    config["site_name"] = title
    config["plugins"] = [{"handbook": {"catalog": str(catalog)}}]
    config["site_dir"] = str(folder / "site")
    config.update(changes)
    path = folder / "mkdocs.yml"
    path.write_text(yaml.safe_dump(config), encoding="utf-8")
    return path


def build(config: Path, strict: bool = False) -> Path:
    """Build as ``mkdocs build`` does; returns the site folder."""
    logging.getLogger("mkdocs").setLevel(logging.INFO)
    loaded = load_config(str(config), strict=strict)
    loaded.plugins.on_startup(command="build", dirty=False)
    mkdocs_build(loaded)
    return Path(loaded.site_dir)
