"""The demo's whole site, theme and files included, with other words in each of its texts."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count, cycle
from pathlib import Path
from typing import Any

import pytest
from folders import DEMO
from hostile import poisoned
from site_building import build, configuration

from build_tools import pipeline
from build_tools.site import hand_written

Site = tuple[Path, int]


def made(folder: Path, texts: list[str]) -> Site:
    """The demo's site, each of its texts with one of these, and how many texts there are."""
    number, more = count(), cycle(texts)

    def text() -> str:
        next(number)
        return f" a{next(more)}a"

    run = pipeline.run

    def poison(opened: Any, memory: object = None) -> Any:
        catalog, profile, _, _, conclusions = run(opened)
        return poisoned(catalog, text), profile, [], [], conclusions

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pipeline, "run", poison)
        patch.setattr(hand_written, "demands", lambda *args: [])
        return build(configuration(folder, DEMO)), next(number)


def pages(site: Path) -> Iterator[tuple[str, str]]:
    for path in sorted(site.rglob("*.html")):
        yield path.relative_to(site).as_posix(), path.read_text(encoding="utf-8")
