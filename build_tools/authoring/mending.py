"""Mends a catalog: finding by finding, in the lines they point at, until nothing is left that a machine can mend.

A mend is taken only if the file's data afterwards is what the mend meant and nothing else, and a file only if it can be
read then. What is left is the author's.
"""

from __future__ import annotations

import difflib
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import yaml

from .. import pipeline
from ..catalog import yaml_file
from ..catalog.bibliography.references import read_bibliography
from ..catalog.finding import Finding, Spot
from ..checks import runner
from ..checks.runner import GradedFinding
from .mends import MENDS, Letters, Mended, letters, records
from .yaml_edit import YamlText

#: One mend may show what another hid; more rounds than this only a fault could ask for.
MOST_ROUNDS = 10
#: Findings of a bibliography that other records can be read beside.
_READABLE = {"missing-key", "unknown-key", "wrong-value", "bad-key", "duplicate-key"}


class ToldMend(NamedTuple):
    """One mend that was made."""

    spot: Spot
    rule: str
    what: str

    def __str__(self) -> str:
        return f"{self.spot.file}:{self.spot.line}: mended [{self.rule}]: {self.what}"


class Left(NamedTuple):
    """A mended catalog, what its check still finds, and what was mended."""

    opened: pipeline.Opened
    found: list[GradedFinding]
    told: list[ToldMend]


def mend(folder: Path, label: str) -> Left:
    """Mend the catalog in ``folder``; findings call it ``label``. Raises ``ValueError`` and ``OSError`` as ``open_catalog`` does."""
    told: list[ToldMend] = []
    for rounds_left in reversed(range(MOST_ROUNDS)):
        opened = pipeline.open_catalog(folder, label)
        found = runner.run(*opened)
        made = list(_round(folder, label, (graded.finding for graded in found)))
        told += made
        if not made or not rounds_left:
            break
    return Left(opened, found, told)


def unified_diff(before: str, after: str, file: str) -> Iterator[str]:
    """Lines of a patch of one file, as ``git apply`` and ``patch`` read it."""
    lines = [re.findall(r"[^\n]*\n|[^\n]+", text) for text in (before, after)]
    for line in difflib.unified_diff(lines[0], lines[1], f"a/{file}", f"b/{file}"):
        yield line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n"


def mendable(folder: Path, label: str, findings: Iterable[Finding]) -> int:
    """How many of these findings ``mend`` would begin with."""
    return sum(
        _can_be_mended(folder / finding.spot.file.removeprefix(f"{label}/"), finding)
        for finding in findings
        if finding.rule in MENDS
    )


def _can_be_mended(path: Path, finding: Finding) -> bool:
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError):
        return False
    return _one(text, finding) is not None


def _round(folder: Path, label: str, findings: Iterable[Finding]) -> Iterator[ToldMend]:
    by_file: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        if finding.rule in MENDS and finding.spot.file.startswith(f"{label}/"):
            by_file[finding.spot.file].append(finding)
    for shown, of_file in sorted(by_file.items()):
        path = folder / shown.removeprefix(f"{label}/")
        yield from _mend_file(path, shown, of_file)


def _mend_file(path: Path, shown: str, findings: Sequence[Finding]) -> list[ToldMend]:
    if path.is_symlink() or not path.is_file():
        return []
    raw = path.read_bytes()
    try:
        whole = raw.decode("utf-8")
    except UnicodeDecodeError:
        return []
    mark = "\ufeff" if whole.startswith("\ufeff") else ""
    before = whole.removeprefix(mark)
    text = before.replace("\r\n", "\n").replace("\r", "\n")
    told: list[ToldMend] = []
    while findings:
        begun = len(told)
        # From the end on, so that what was found further up still stands in its place.
        for finding in sorted(findings, key=lambda finding: finding.spot, reverse=True):
            made = _one(text, finding) if finding.rule in MENDS else None
            if made:
                text = made.text
                told.append(ToldMend(finding.spot, finding.rule, made.what))
        if len(told) == begun:
            break
        path.write_bytes((mark + with_line_ends(before, text)).encode("utf-8"))
        findings = _unreadable(path, shown)
    if findings and told:
        path.write_bytes(raw)
        return []
    return sorted(told)


def _one(text: str, finding: Finding) -> Mended | None:
    """A mend, if the file's data is afterwards what it meant."""
    try:
        made = MENDS[finding.rule](text, finding)
        if made is None:
            return None
        if isinstance(made.data, Letters):
            return made if letters(text) == letters(made.text) else None
        is_bib = finding.spot.file.endswith(".bib")
        data = records(made.text) if is_bib else YamlText(made.text).data
    except yaml.YAMLError:
        return None
    return made if data == made.data else None


def _unreadable(path: Path, shown: str) -> list[Finding]:
    """Why a file cannot be read; a mend may show what it hid."""
    if path.suffix == ".bib":
        _, found, _ = read_bibliography(path, shown)
        return [finding for finding in found if finding.rule not in _READABLE]
    return yaml_file.read(path, shown)[2]


def with_line_ends(before: str, text: str) -> str:
    """``text`` with the line ends that its lines had in ``before``; new lines get those of their neighbours."""
    pairs = re.findall(r"([^\r\n]*)(\r\n|\r|\n|\Z)", before)
    lines, ends = [line for line, _ in pairs], [end for _, end in pairs]
    used = set(filter(None, ends))
    if len(used) < 2:
        return text.replace("\n", *used) if used else text
    made = text.split("\n")
    last = made.pop()
    put: list[str] = []
    for _, i, j, k, m in difflib.SequenceMatcher(None, lines, made, autojunk=False).get_opcodes():
        for number in range(k, m):
            old = min(i + number - k, max(i, j - 1), len(ends) - 1)
            put.append(made[number] + (ends[old] or "\n"))
    return "".join(put) + last
