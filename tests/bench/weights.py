"""What a built site weighs: all of it, the heaviest page of each kind, and what the search holds."""

from __future__ import annotations

import gzip
from pathlib import Path
from typing import NamedTuple

#: Kind of page or file -> where it stands in the site.
KINDS = {
    "home": "index.html",
    "exercise": "exercises/*/index.html",
    "muscle": "muscles/*/index.html",
    "part": "muscles/*/*/index.html",
    "source": "sources/*/index.html",
    "lesson": "lessons/*/index.html",
    "slides": "lessons/*/slides/index.html",
    "cue sheet": "cues/*/index.html",
    "list of exercises": "exercises/index.html",
    "list of sources": "sources/index.html",
    "gaps": "gaps/index.html",
    "common teaching": "taught/index.html",
    "handout": "handout/index.html",
    "planner's data": "data/planner.json",
    "finder's data": "data/find*.json",
    "data of two exercises": "data/compare/pairs/*.json",
}


class Weights(NamedTuple):
    """Megabytes are millions of bytes, kilobytes thousands; packed is by gzip."""

    megabytes: float
    files: int
    heaviest: dict[str, tuple[float, float]]
    """Kind -> kilobytes of its heaviest one, as it lies and packed."""
    search: float
    """Kilobytes of the whole search, packed."""


def weights(site: Path) -> Weights:
    """Weigh a site."""
    files = [path for path in site.rglob("*") if path.is_file()]
    heaviest = {}
    for kind, pattern in KINDS.items():
        if found := list(site.glob(pattern)):
            path = max(found, key=lambda path: path.stat().st_size)
            heaviest[kind] = path.stat().st_size / 1e3, packed(path)
    return Weights(
        sum(path.stat().st_size for path in files) / 1e6,
        len(files),
        heaviest,
        sum(map(packed, (site / "search").glob("*.json"))),
    )


def packed(path: Path) -> float:
    """Kilobytes as a host sends them."""
    return len(gzip.compress(path.read_bytes(), 6, mtime=0)) / 1e3
