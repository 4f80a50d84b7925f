"""The kinds of inputs: how one is made from a number, and how it is tried."""

from __future__ import annotations

import base64
import tempfile
from functools import cached_property
from pathlib import Path
from random import Random
from typing import NamedTuple

from folders import DEMO, SHIPPED

from build_tools import pipeline

from . import catalogs, files
from .outcome import Outcome

#: Kind -> how many of a hundred inputs are of it. One on the shipped catalog costs as much as fifty on the demo.
SHARES = {
    **{"catalog": 36, "study": 22, "bibliography": 8, "table": 6, "committed": 4},
    **{"plan": 8, "link": 8, "export": 7, "shipped": 1},
}
_COMMITTED = ("conclusions/", "changes.yaml", "addresses.txt")


class Input(NamedTuple):
    """What is tried: a file's path or name -> its bytes."""

    kind: str
    files: dict[str, bytes]

    def as_data(self) -> dict[str, object]:
        """As plain JSON, for a report."""
        return {
            "kind": self.kind,
            "files": {k: base64.b64encode(v).decode() for k, v in self.files.items()},
        }


class Trials:
    """Makes inputs and tries them, in a folder of its own that goes with it."""

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory()
        self._at = Path(self._folder.name)

    @cached_property
    def demo(self) -> catalogs.Base:
        return catalogs.Base(DEMO, self._at / "demo", catalogs.ADDED)

    @cached_property
    def shipped(self) -> catalogs.Base:
        catalogs.remember_entries()
        return catalogs.Base(SHIPPED, self._at / "shipped")

    @cached_property
    def _sound(self) -> pipeline.Checked:
        return catalogs.sound(self.demo.root)

    def made(self, kind: str, random: Random) -> Input:
        """An input of a kind."""
        if kind == "plan":
            return Input(kind, {"week.json": files.a_plan(random)})
        if kind == "link":
            return Input(kind, {"link": files.a_link(random)})
        if kind == "export":
            return Input(kind, dict([files.an_export(random)]))
        base = self.shipped if kind == "shipped" else self.demo
        if kind == "study":
            names = base.names("studies/")
        elif kind == "table":
            names = [name for name in base.texts if name.endswith(".csv")]
        elif kind == "bibliography":
            names = ["references.bib"]
        elif kind == "committed":
            names = base.names(*_COMMITTED)
        else:
            apart = (*_COMMITTED, *(("studies/",) if kind == "catalog" else ()))
            names = [n for n in base.texts if n.endswith(".yaml") and not n.startswith(apart)]
            if kind == "shipped":
                names += [name for name in base.texts if name.endswith(".csv")] * 4
        return Input(kind, base.mutated(names, random))

    def tried(self, given: Input, deep: bool) -> Outcome:
        """What becomes of it; ``deep`` renders what passes."""
        if given.kind in ("plan", "link"):
            [data] = given.files.values()
            return files.try_plan(data) if given.kind == "plan" else files.try_link(data)
        if given.kind == "export":
            [(name, data)] = given.files.items()
            return files.try_export(name, data, self._at, self.demo.texts["references.bib"])
        if given.kind == "committed":
            return self._committed(given)
        base = self.shipped if given.kind == "shipped" else self.demo
        return base.tried(given.files, deep)

    def _committed(self, given: Input) -> Outcome:
        checked, root = self._sound, self.demo.root
        try:
            for name, data in given.files.items():
                (root / name).write_bytes(data)
            return catalogs.tried_committed(root, checked)
        finally:
            for name in {*given.files, "changes.yaml"}:
                (root / name).write_text(self.demo.texts[name], encoding="utf-8")
