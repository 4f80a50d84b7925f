"""What today's program concludes from a state, in the form of its committed files."""

from __future__ import annotations

from typing import NamedTuple

from .. import pipeline
from ..committed import files
from ..english import counted
from .snapshot import Snapshot


class ConcludedTexts(NamedTuple):
    """The files, or why there are none."""

    texts: dict[str, str | None] | None
    missing: str = ""
    """Why nothing was concluded, as an end of a sentence."""


def conclude(snapshot: Snapshot) -> ConcludedTexts:
    """Check the catalog of a state and conclude from it. Takes seconds; never raises for what the catalog holds."""
    try:
        checked = pipeline.run(pipeline.open_catalog(snapshot.root, "catalog"))
    except (OSError, ValueError) as error:
        return ConcludedTexts(None, f"it cannot be read ({error})")
    if checked.conclusions is None:
        errors = counted(len(checked.errors), "error")
        return ConcludedTexts(None, f"`handbook check` of today finds {errors} in it")
    return ConcludedTexts(dict(files.files(checked.conclusions, checked.catalog)))
