"""Lays an example of a rule's manual over a copy of the demo catalog."""

from __future__ import annotations

import re
import shutil
from datetime import date
from pathlib import Path

from folders import DEMO

from build_tools.catalog.load import Catalog, load
from build_tools.checks.manuals.manual import ManualExample

#: The day on which every example is checked; the demo's reviews are a month old.
TODAY = date(2026, 12, 1)


def lay_over(example: ManualExample, folder: Path) -> Catalog:
    """The demo catalog with the example in it, copied to ``folder`` and loaded without a label.

    The fragment stands first in its file, so lines and columns count alike in both.
    A new entry inherits the blocks it does not name from the first file of its folder.
    """
    shutil.copytree(DEMO, folder, dirs_exist_ok=True)
    path = folder / example.file
    siblings = sorted(path.parent.glob("*.yaml")) if path.parent != folder else []
    base = path if path.exists() else next(iter(siblings), None)
    start = r"@\w+\{(\w+)," if path.suffix == ".bib" else r"([\w-]+):"
    replaced = set(re.findall(rf"^{start}", example.fragment, re.MULTILINE))
    # A block runs from an unindented start to the next one; what stands before the first is a comment.
    blocks = (
        re.split(rf"^(?={start})", base.read_text(encoding="utf-8"), flags=re.MULTILINE)[0::2]
        if base
        else []
    )
    kept = [
        block for block in blocks if (found := re.match(start, block)) and found[1] not in replaced
    ]
    path.write_text(example.fragment + "".join(kept), encoding="utf-8")
    return load(folder, "")
