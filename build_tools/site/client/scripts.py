"""The scripts of the site, published below ``scripts/`` as they stand in that folder, without their comments.

``rules`` holds what the pages decide live, once and without any page around it: the tests run it in an embedded engine. ``planner``,
``handout`` and ``search`` show it.
"""

from __future__ import annotations

import re
from importlib import resources
from importlib.resources.abc import Traversable

#: Folders and files below ``scripts/`` that the handout page needs.
HANDOUT = (
    "dom.js",
    "handout",
    "rules/care.js",
    "rules/days.js",
    "rules/doses.js",
    "rules/link.js",
    "rules/text.js",
    "rules/ticks.js",
)
#: What copies and sends on an exercise's page.
SHARE = "share.js"
#: What takes the records of a page out of those of all sources.
RECORDS = "records.js"
#: What narrows a list that stands whole on its page.
NARROW = "narrow.js"
#: Comments that fill whole lines. No line of a template literal begins so, which the tests hold.
_COMMENT = re.compile(r"^[ \t]*(?:/\*(?:(?!\*/).)*\*/[ \t]*|//[^\n]*)$", re.DOTALL | re.MULTILINE)
_FOLDERS = ("handout", "lesson", "map", "planner", "rules", "search", "week")


def uri(path: str) -> str:
    """Where a script is published."""
    return f"scripts/{path}"


def handout() -> list[tuple[str, bytes]]:
    """Uri and content of the handout page's scripts, with the library they use and its licence."""
    return [(uri(path), content) for path, content in _all() if _of_handout(path)]


def others() -> list[tuple[str, bytes]]:
    """Uri and content of all others."""
    return [(uri(path), content) for path, content in _all() if not _of_handout(path)]


def _of_handout(path: str) -> bool:
    return path in HANDOUT or path.partition("/")[0] in HANDOUT


def _published(asset: Traversable) -> bytes:
    content = asset.read_bytes()
    return bare(content.decode()).encode() if asset.name.endswith(".js") else content


def bare(script: str) -> str:
    """A script without comments, a fifth of what is sent; its lines keep their numbers, so that an error tells where it is."""
    return _COMMENT.sub(lambda comment: "\n" * comment[0].count("\n"), script)


def _all() -> list[tuple[str, bytes]]:
    top = resources.files("build_tools.site") / "scripts"
    found = [
        (f"{name}{asset.name}", _published(asset))
        for name, folder in [("", top), *((f"{name}/", top / name) for name in _FOLDERS)]
        for asset in folder.iterdir()
        if asset.is_file()
    ]
    return sorted(found)
