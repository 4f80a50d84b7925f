"""For a pull request's summary: Markdown that a reviewer takes in on one screen, the rest folded and cut.

Catalog text is escaped (``job_summary.escape``) and begins no line, so nothing in it becomes markup or a workflow command.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...checks.reports.job_summary import escape
from ..difference import CatalogDifference
from ..outline import Item, Section, outline

#: Things of one kind that are shown, and of what is folded.
MOST, FOLDED = 6, 40
#: GitHub drops a summary of more than 1 MiB; other commands of the step need room, too.
MAX_BYTES = 256 * 1024


def render(found: CatalogDifference, colour: bool) -> str:
    """Markdown of at most ``MAX_BYTES``. It has no colours."""
    kept, size = [], 0
    for block in _blocks(found):
        size += len(block.encode()) + 1
        if size > MAX_BYTES:
            kept.append("More was left out here; `handbook diff` with `--format json` tells all.\n")
            break
        kept.append(block)
    return "\n".join(kept)


def _blocks(found: CatalogDifference) -> Iterator[str]:
    whole = outline(found)
    yield f"### {escape(whole.title)}\n"
    counts = "".join(f"- {escape(count)}\n" for count in whole.counts)
    yield counts + "".join(f"- *Note:* {escape(note)}\n" for note in whole.notes)
    for section in whole.sections:
        yield _open(section) if section.urgent else _folded(section)


def _open(section: Section) -> str:
    shown = section.items[:MOST]
    text = f"#### {escape(section.title)}\n\n{''.join(map(_item, shown))}"
    rest = section.items[MOST:]
    return text + (f"\n{_details(f'{len(rest):,} more', rest)}" if rest else "")


def _folded(section: Section) -> str:
    return _details(f"{section.title}: {len(section.items):,}", section.items)


def _details(title: str, items: list[Item]) -> str:
    more = len(items) - FOLDED
    text = "".join(map(_item, items[:FOLDED]))
    left = f"\nAnd {more:,} more.\n" if more > 0 else ""
    return f"<details><summary>{escape(title)}</summary>\n\n{text}{left}\n</details>\n"


def _item(item: Item) -> str:
    lines = "".join(f"    - {label}: {escape(text)}\n" for label, text in item.lines)
    return f"- **{escape(item.head)}**\n{lines}"
