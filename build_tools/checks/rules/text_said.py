"""Every text says something.

Why: `...` or `???` that was to be filled in later stands on the page as it is, and
a client reads it.

Instead: write the words, or `TODO` while they are missing: no check then passes over it.

Fails: exercises/crate-curl.yaml 2:10
    faults:
      - see: "..."
        say: Sit back against the wall.
        common_practice: Seen with tired clients.

Passes: exercises/crate-curl.yaml
    faults:
      - see: The hips slide forward.
        say: Sit back against the wall.
        common_practice: Seen with tired clients.
"""

import re
from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

#: A letter or digit of any script, or the sign of a unit.
_SAID = re.compile(r"[^\W_]|[%°]")


def check(context: Context) -> Iterator[Problem]:
    """Texts of signs alone."""
    for entry, path, text in context.texts:
        if text and not _SAID.search(text):
            yield Problem(
                entry.spot(*path),
                f"`{text}` says nothing",
                "write the words, or take the line out",
            )
