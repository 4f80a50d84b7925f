"""No text still says TODO.

Why: a draft from `handbook new` or `handbook cite` marks what its author must still
write. A page with such a mark on it would reach a client.

Instead: write what is asked for, or take the line out.

Fails: exercises/crate-curl.yaml 1:7
    name: "TODO: how coaches call it"

Passes: exercises/crate-curl.yaml
    name: Crate curl
"""

from collections.abc import Iterator

from build_tools.catalog.entries import TODO
from build_tools.catalog.finding import Spot
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Texts of entries and records that begin with the mark."""
    help = "write it, or take the line out"
    for entry, path, text in context.texts:
        if text.startswith(TODO):
            yield Problem(entry.spot(*path), f"still to be written: `{text}`", help)
    for reference in context.catalog.references.values():
        if reference.readat.startswith(TODO):
            spot: Spot = reference.place("readat")
            yield Problem(spot, f"still to be written: `{reference.readat}`", help)
