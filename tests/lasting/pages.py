"""What must be alike in two builds of one handbook, and what a theme or a generator may call its own."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

#: The theme names its bundles by their content, and says who made a page.
_BUNDLE = re.compile(rb"\b(bundle|main|palette)\.[0-9a-f]{8}\.min\b")
_MAKER = re.compile(rb'<meta name="generator" content="[^"]*">')
_THEME = ("assets/javascripts/", "assets/stylesheets/", "assets/images/")


def lowest(requirements: Iterable[str]) -> list[str]:
    """Each requirement at the lower end of its range. Raises ``ValueError`` for one that has none."""
    found = []
    for one in requirements:
        match = re.match(r"([\w.-]+)>=([\w.]+)", one)
        if not match:
            raise ValueError(f"{one} says no lowest version")
        found.append(f"{match[1]}=={match[2]}")
    return found


def files(site: Path) -> dict[str, bytes]:
    """Address -> content without what the theme and the generator say of themselves."""
    return {
        name: _MAKER.sub(b"", _BUNDLE.sub(rb"\1", path.read_bytes()))
        for path in site.rglob("*")
        if path.is_file()
        and not (name := path.relative_to(site).as_posix()).startswith(_THEME)
        and not name.endswith(".gz")  # says when it was packed
    }


def different(first: Path, second: Path) -> list[str]:
    """Files that are not in both builds, or not the same."""
    one, other = files(first), files(second)
    return sorted(name for name in one.keys() | other.keys() if one.get(name) != other.get(name))
