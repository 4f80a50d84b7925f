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
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.finding import Spot
from build_tools.catalog.load import Loaded
from build_tools.checks.rule import Context, Problem

#: A plain text in words after a key, and what follows it; an id, a number or a list may have a remark beside it.
_CUT = re.compile(
    r"^[ \t]*(?:- )?\w+:[ \t]+(?P<text>[^\s\"'\[{|>#].*?)[ \t]+(?P<rest>#.*)$", re.MULTILINE
)
_ID = re.compile(r"[a-z0-9@./-]+")


def check(context: Context) -> Iterator[Problem]:
    """Texts with a remark right behind them."""
    texts: dict[int, set[str]] = defaultdict(set)
    entries: dict[int, Loaded[Any]] = {}
    for entry, _, text in context.texts:
        texts[id(entry)].add(text)
        entries[id(entry)] = entry
    for key, entry in entries.items():
        for found in _CUT.finditer(entry.source.text) if "#" in entry.source.text else ():
            text = found["text"]
            if text not in texts[key] or _ID.fullmatch(text):
                continue
            before = entry.source.text[: found.start("rest")]
            yield Problem(
                Spot(
                    entry.source.label,
                    before.count("\n") + 1,
                    len(before) - before.rfind("\n"),
                ),
                f"the text ends before this `#`: it is read as `{text}`",
                f'put it in quotes, "{text} {found["rest"]}", or give the remark a line of its own',
            )
