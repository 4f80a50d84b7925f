"""No text is cut off by a ` #`.

Why: from a space and a `#` on, YAML reads a remark that nobody sees: `Crate curl #2` is
called Crate curl, and a cue loses its end without a word.

Instead: put the text in quotes, or write a remark on a line of its own.

Fails: exercises/crate-curl.yaml 1:18
    name: Crate curl #2

Passes: exercises/crate-curl.yaml
    # The second crate is the taller one.
    name: "Crate curl no. 2"
"""

import re
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.finding import Spot
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import texts_of, yaml_entries
from build_tools.checks.rule import Context, Problem

#: A plain text in words after a key, and what follows it; an id, a number or a list may have a remark beside it.
_CUT = re.compile(
    r"^[ \t]*(?:- )?\w+:[ \t]+(?P<text>[^\s\"'\[{|>#].*?)[ \t]+(?P<rest>#.*)$", re.MULTILINE
)
_ID = re.compile(r"[a-z0-9@./-]+")


def check(context: Context) -> Iterator[Problem]:
    """Texts with a remark right behind them."""
    for entry in yaml_entries(context.catalog):
        if "#" in entry.source.text:
            yield from _cut(entry)


@once_per_entry
def _cut(entry: Loaded[Any]) -> list[Problem]:
    texts = {text for _, text in texts_of(entry)}
    problems = []
    for found in _CUT.finditer(entry.source.text):
        text = found["text"]
        if text not in texts or _ID.fullmatch(text):
            continue
        before = entry.source.text[: found.start("rest")]
        problems.append(
            Problem(
                Spot(
                    entry.source.label,
                    before.count("\n") + 1,
                    len(before) - before.rfind("\n"),
                ),
                f"the text ends before this `#`: it is read as `{text}`",
                f'put it in quotes, "{text} {found["rest"]}", or give the remark a line of its own',
            )
        )
    return problems
