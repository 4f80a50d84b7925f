"""No text stands in typographic quotation marks from end to end.

Why: YAML knows only the straight marks. A word processor's curly ones become part
of the text, and a page gets the title “Seated curl” with its marks.

Instead: remove the marks, or use straight ones where YAML needs them.

Fails: exercises/crate-curl.yaml 1:7
    name: “Crate curl”

Passes: exercises/crate-curl.yaml
    name: "Crate curl"
    also_called: [the crate’s curl]
"""

import re
from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

_MARKS = "“”„‟‘’‚‛«»‹›″′＂"
_QUOTED = re.compile(rf"[{_MARKS}][^{_MARKS}]*[{_MARKS}]")


def check(context: Context) -> Iterator[Problem]:
    """Texts that are one quotation."""
    for entry, path, text in context.texts:
        if _QUOTED.fullmatch(text.strip()):
            yield Problem(
                entry.spot(*path),
                f"the marks in {text.strip()} are part of the text: YAML does not know them",
                f'remove them, or use straight ones: "{text.strip()[1:-1]}"',
            )
