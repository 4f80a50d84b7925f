"""A difference in each form it can be told in: one module a form."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..difference import CatalogDifference

FORMATS = ("text", "markdown", "json")


def render(found: CatalogDifference, format: str, colour: bool = False) -> str:
    """``found`` in one of ``FORMATS``, ending with a line break. ``colour``: the reader is a terminal that shows it."""
    text: str = importlib.import_module(f".{format}", __name__).render(found, colour)
    return text
