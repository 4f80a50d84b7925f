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

from build_tools.catalog.complaints import unfinished
from build_tools.catalog.entries import TODO
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Texts of entries and records that begin with the mark. An entry that a mark keeps from being typed is told by the loader."""
    for entry, path, text in context.texts:
        if text.startswith(TODO):
            found = unfinished(entry.source, type(entry.data), path, text, key=False)
            yield Problem(found.spot, found.message, found.help)
    for reference in context.catalog.references.values():
        if reference.readat.startswith(TODO):
            yield Problem(
                reference.place("readat"),
                "`readat` is still to be written",
                f"write it ({reference.readat.removeprefix(TODO).lstrip(': ')}), or take the line out",
            )
