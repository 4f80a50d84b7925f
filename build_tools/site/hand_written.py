"""Pages written by hand: the handbook's own, from its content folder, and those that the engine lends.

How a number becomes a sentence, and how cautions are read, are the same for everybody who uses this engine, and must follow its version:
so these two pages come with it, and stand until a handbook has a file of that name. What a handbook is for, only its people can say.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from importlib import resources
from pathlib import Path

from .addresses import url
from .context import RenderContext
from .pages import methods, passages
from .sections import care as care_view

HOME = "index.md"
METHODS = "methods.md"
LENT = (METHODS, care_view.URI)
#: What a page's address may hold, as the list of published addresses has it.
_NAME = re.compile(r"(?:[a-z0-9]+(?:-[a-z0-9]+)*/)*")
#: The words that every page of cautions must show.
_NOTICE = "<!-- handbook: notice -->"


def lent(uri: str) -> str:
    """The Markdown of a page that the engine lends."""
    return (resources.files("build_tools.site") / "content" / uri).read_text(encoding="utf-8")


def pages(content: Path) -> dict[str, str]:
    """Uri and Markdown of each: those of the content folder, and what it has not of those lent. As MkDocs has it, a README is the
    index of its folder, and neither hidden files nor ``templates/`` are pages. Raises ``OSError`` and ``UnicodeDecodeError`` for
    files that cannot be read."""
    own = {
        _uri(path.relative_to(content)): path.read_text(encoding="utf-8")
        for path in sorted(content.rglob("*.md"))
        if not any(part.startswith(".") for part in path.relative_to(content).parts)
        and path.relative_to(content).parts[0] != "templates"
    }
    return {uri: lent(uri) for uri in LENT if uri not in own} | own


def links(content: Path, folder: str) -> str | None:
    """What is wrong with a link inside the content folder, which people call ``folder``: one that leads out of it, to nothing, or to a
    folder that holds it. All that it leads to would be published. A pipe is as bad: whoever reads one waits for ever."""
    root = content.resolve()
    for path in sorted(_all(content)):
        name = f"{folder}/{path.relative_to(content).as_posix()}"
        if not path.is_symlink():
            if not path.is_file() and not path.is_dir():
                return f"{name} is neither a file nor a folder; take it away"
            continue
        try:
            target = path.resolve(strict=True)
        except (OSError, RuntimeError):  # a loop, until Python 3.13 an error of its own
            return f"{name} is a link that leads to nothing or to itself; take it away"
        if not target.is_relative_to(root):
            return f"{name} is a link out of the folder, and what it leads to would be published; put a copy there instead"
        if path.parent.resolve().is_relative_to(target):
            return f"{name} is a link to a folder that holds it; take it away"
    return None


def _all(folder: Path) -> Iterator[Path]:
    """Everything below a folder; links are not followed."""
    for at, folders, files in os.walk(folder):
        yield from (Path(at, name) for name in (*folders, *files))


def _uri(path: Path) -> str:
    return (path.with_name("index.md") if path.name == "README.md" else path).as_posix()


def anchors(shelf: RenderContext, uri: str) -> list[str]:
    """What generated pages link to on a page written by hand."""
    if uri == METHODS:
        return methods.ANCHORS
    return [care_view.ANCHOR, *care_view.anchors(shelf)] if uri == care_view.URI else []


def addresses(written: Mapping[str, str]) -> list[str]:
    """Uris whose addresses can be listed as published."""
    return sorted(uri for uri in {HOME, *LENT, *written} if _NAME.fullmatch(url(uri)))


def _has(text: str, anchor: str) -> bool:
    return f"{{#{anchor}}}" in text or f'id="{anchor}"' in text


def demands(shelf: RenderContext, written: Mapping[str, str], folder: str) -> list[str]:
    """What is missing in the pages of a content folder, which people call ``folder``, and what to write instead."""
    found = []
    if HOME not in written:
        found.append(
            f"{folder}/{HOME} is missing: write what the handbook is for, and `<!-- handbook: evidence map -->` on a line of its own"
        )
    for uri, text in written.items():
        if not _NAME.fullmatch(url(uri)):
            found.append(
                f"{folder}/{uri}: a page's name is its address for good; use small letters, digits and hyphens"
            )
        passages.demand_known(uri, text)
        asked = [anchor for anchor in anchors(shelf, uri) if not _has(text, anchor)]
        shown = passages.fill(shelf, uri, text) if asked else text
        if lost := [f"`#{anchor}`" for anchor in asked if not _has(shown, anchor)]:
            found.append(
                f"{folder}/{uri}: other pages link to {', '.join(lost[:3])}{', ...' if lost[3:] else ''}, which is not there; "
                f"write `## Heading {{{lost[0].strip('`')}}}`, or take the file away: the engine's own page then stands for it"
            )
        if uri == care_view.URI and _NOTICE not in text:
            found.append(
                f"{folder}/{uri}: the notice is missing; write `{_NOTICE}` on a line of its own"
            )
    return found
