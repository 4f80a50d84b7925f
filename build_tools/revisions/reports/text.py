"""For a terminal: counts first, then what differs, cut so that a screen or two hold it."""

from __future__ import annotations

from collections.abc import Iterator

from ...checks.reports import visible
from ..difference import CatalogDifference
from ..outline import outline

#: Things of one kind that are shown; the rest is counted.
MOST = 8
#: Of what a reviewer need not read first.
FEW = 5
_BOLD = "1"


def render(found: CatalogDifference, colour: bool) -> str:
    """Plain lines; what the catalog holds begins none of them."""
    return "\n".join(_lines(found, colour)) + "\n"


def _lines(found: CatalogDifference, colour: bool) -> Iterator[str]:
    whole = outline(found)

    def bold(text: str) -> str:
        return f"\x1b[{_BOLD}m{text}\x1b[0m" if colour else text

    yield bold(_shown(whole.title))
    yield from (f"  {_shown(count)}" for count in whole.counts)
    yield from (f"  note: {_shown(note)}" for note in whole.notes)
    cut = False
    for section in whole.sections:
        most = MOST if section.urgent else FEW
        yield ""
        yield bold(f"{section.title}: {len(section.items):,}")
        for item in section.items[:most]:
            yield f"  - {_shown(item.head)}"
            width = max((len(label) for label, _ in item.lines), default=0)
            yield from (f"      {label.ljust(width)}  {_shown(text)}" for label, text in item.lines)
        if len(section.items) > most:
            cut = True
            yield f"  and {len(section.items) - most:,} more"
    if cut:
        yield ""
        yield "All of it: --format json"


def _shown(text: str) -> str:
    # A runner's log takes ##[ anywhere in a line for a command.
    return visible(text).replace("##[", "## [")
