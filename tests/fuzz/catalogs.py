"""Mutated catalogs: one or more files changed, then read, checked, and where it is sound concluded from and rendered."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path
from random import Random
from typing import Any

from build_tools import pipeline
from build_tools.catalog import load as loading
from build_tools.checks import runner
from build_tools.checks.profile import load_profile, severity_of
from build_tools.checks.runner import GradedFinding
from build_tools.commands.conclude import _renames
from build_tools.committed import addresses, files, record
from build_tools.revisions.statements import compare
from build_tools.site import book

from . import entries, texts
from .outcome import Outcome, judged, of_error, of_pages

TODAY = date(2026, 12, 1)
#: What the demo catalog does without: ids that moved, and studies with numbers of every kind.
ADDED = Path(__file__).parent / "added"
#: Path below the catalog's folder -> its new bytes.
Changed = dict[str, bytes]


class Base:
    """A copy of a catalog that inputs are tried on, one after the other."""

    def __init__(self, catalog: Path, folder: Path, added: Path | None = None) -> None:
        self.root = Path(shutil.copytree(catalog, folder / "catalog"))
        for path in added.rglob("*.*") if added else ():
            to = self.root / path.relative_to(added)
            before = to.read_text(encoding="utf-8") if to.exists() else ""
            to.write_text(before + path.read_text(encoding="utf-8"), encoding="utf-8")
        if added:
            checked = sound(self.root)
            assert checked.conclusions is not None
            files.write(files.files(checked.conclusions, checked.catalog), self.root)
        self.texts = {
            path.relative_to(self.root).as_posix(): path.read_text(encoding="utf-8")
            for path in sorted(self.root.rglob("*"))
            if path.is_file() and path.suffix in (".yaml", ".bib", ".csv", ".txt")
        }
        self.grafts: dict[str, list[str]] = {}
        for name, text in self.texts.items():
            if (
                name.endswith(".yaml")
                and not name.startswith("conclusions/")
                and name != "changes.yaml"
            ):
                for key, values in entries.values(text).items():
                    self.grafts.setdefault(key, []).extend(values)

    def names(self, *beginnings: str) -> list[str]:
        """Files whose path begins with one of these."""
        return [name for name in self.texts if name.startswith(beginnings)]

    def mutated(self, names: list[str], random: Random) -> Changed:
        """One of the files changed, now and then two."""
        chosen = random.sample(names, min(len(names), random.choices((1, 2), (9, 1))[0]))
        return {name: self._one(name, random) for name in chosen}

    def _one(self, name: str, random: Random) -> bytes:
        text = self.texts[name]
        if name.endswith(".yaml"):
            return entries.mutated(text, random, self.grafts)
        return texts.mutated(text, random)

    def tried(self, changed: Changed, deep: bool) -> Outcome:
        """What becomes of the catalog with these files changed; rendered if ``deep`` and nothing is wrong."""
        try:
            for name, data in changed.items():
                (self.root / name).write_bytes(data)
            return _tried(self.root, deep, b" ".join(changed.values()))
        finally:
            for name in changed:
                (self.root / name).write_text(self.texts[name], encoding="utf-8")


def sound(root: Path) -> pipeline.Checked:
    """The catalog, checked and concluded from."""
    return pipeline.run(pipeline.Opened(loading.load(root, "catalog"), TODAY, load_profile()))


def _tried(root: Path, deep: bool, written: bytes) -> Outcome:
    depth = "read"
    try:
        catalog = loading.load(root, "catalog")
        found = runner.run(catalog, TODAY, load_profile())
        outcome = judged(found, catalog, depth)
        if outcome.name not in ("clean", "warned"):
            return outcome
        depth = "concluded"
        checked = pipeline.run(pipeline.Opened(catalog, TODAY, load_profile()))
        outcome = judged(checked.reported, catalog, depth)
        if outcome.name not in ("clean", "warned") or checked.conclusions is None:
            return outcome
        told = files.files(checked.conclusions, catalog)
        if fault := of_pages(told.items(), written):
            return fault._replace(depth=depth)
        if not deep:
            return outcome
        depth = "rendered"
        made = book.render(catalog, checked.conclusions, load_profile())
        pages = [(page.uri, page.text) for page in made.pages]
        drawn = [
            (file.uri, file.content.decode("utf-8", "replace"))
            for file in made.files
            if file.uri.endswith((".svg", ".json", ".csv", ".html"))
        ]
        return of_pages([*pages, *drawn], written) or outcome._replace(depth=depth)
    except (Exception, RecursionError) as error:
        return of_error(error, depth)


def tried_committed(root: Path, checked: pipeline.Checked) -> Outcome:
    """What becomes of files that the build wrote, changed since: they are compared, and the record is written anew."""
    try:
        catalog = loading.load(root, "catalog")
        assert checked.conclusions is not None
        told = files.files(checked.conclusions, checked.catalog)
        found = [
            *files.stale(told, catalog),
            *record.find(catalog),
            *addresses.stale(catalog, addresses.published(catalog)),
        ]
        moved = compare(files.stored_texts(root), told, _renames(catalog))
        try:
            record.add(catalog, moved, TODAY)
        except ValueError as error:
            return Outcome("refused", str(error))
        graded = [GradedFinding(one, severity_of(one.rule, checked.profile)) for one in found]
        return judged(graded, catalog, "read")
    except (Exception, RecursionError) as error:
        return of_error(error, "read")


def remember_entries() -> None:
    """Let the loader keep what it made of a file, so that one change to a large catalog costs one file."""
    plain, kept = loading._entry, {}

    def entry(catalog: Any, kind: str, id: str, path: Path, shown: str, model: Any) -> Any:
        key = (shown, path.stat().st_size, path.stat().st_mtime_ns)
        if key not in kept:
            before = len(catalog.findings)
            made = plain(catalog, kind, id, path, shown, model)
            if made is None or len(catalog.findings) != before:
                return made
            kept[key] = made
        return kept[key]

    loading._entry = entry  # type: ignore[assignment]
