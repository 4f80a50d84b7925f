"""Conclusions as files (``catalog/conclusions/``), so that a pull request shows what a new study changes.

One file for each exercise (its claims) and each muscle (every comparison of its parts, and
the exercises that studies connect, in order). How numbers are rounded: ``rounding``; how
the text is laid out: ``plain_yaml``. The same catalog gives the same bytes.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from ..catalog.entries import Claim
from ..catalog.finding import Finding, Spot
from ..catalog.load import Catalog
from . import rounding
from .model import Comparison, Component, Conclusion, Conclusions, Field, Ranked
from .plain_yaml import Data, dump
from .verdict import Directions, Estimate

FOLDER = "conclusions"
#: How every file starts. Whatever does not is never removed.
HEADER = "# Written by handbook conclude. Do not edit.\n"
STALE = "stale-conclusions"

_HELP = "run `handbook conclude` and commit what it writes"


class Written(NamedTuple):
    """How many files were written, removed and left as they were."""

    written: int
    removed: int
    unchanged: int


def files(conclusions: Conclusions, catalog: Catalog) -> dict[str, str]:
    """Path below the catalog folder -> text, sorted by path."""
    texts = {}
    for id, entry in catalog.exercises.items():
        claims: list[Data] = [_claim(c, claim) for c, claim in zip(conclusions.of(id), entry.data.emphasis, strict=True)]
        texts[f"{FOLDER}/exercises/{id}.yaml"] = HEADER + dump({"exercise": id, "claims": claims})
    of_muscle: dict[str, list[Data]] = {id: [] for id in catalog.muscles}
    for _, field in sorted(conclusions.fields.items(), key=lambda item: [ref or "" for ref in item[0]]):
        of_muscle[field.part.partition("/")[0]].append(_field(field))
    for id, fields in of_muscle.items():
        texts[f"{FOLDER}/muscles/{id}.yaml"] = HEADER + dump({"muscle": id, "fields": fields})
    return dict(sorted(texts.items()))


def write(texts: dict[str, str], root: Path) -> Written:
    """Bring the files below the catalog folder ``root`` up to ``texts``. Each is replaced whole or not at all.

    Raises ``OSError`` when a file cannot be written, or when a folder is a link that might lead anywhere.
    """
    stored = _stored(root)
    changed = [path for path, text in texts.items() if stored.get(path) != text]
    for path in changed:
        target = root / path
        _refuse_links(root, target.parent)
        target.parent.mkdir(parents=True, exist_ok=True)
        beside = target.with_name(f".{target.name}.new")
        beside.write_text(texts[path], encoding="utf-8", newline="\n")
        os.replace(beside, target)
    left = [path for path, text in stored.items() if path not in texts and _is_ours(text)]
    for path in left:
        (root / path).unlink()
    return Written(len(changed), len(left), len(texts) - len(changed))


def stale(texts: dict[str, str], catalog: Catalog) -> list[Finding]:
    """What ``handbook conclude`` would change below the catalog's folder; one finding for each file."""
    stored, label = _stored(catalog.root), f"{catalog.label}/" if catalog.label else ""
    if texts and not stored:
        return [Finding(STALE, Spot(f"{label}{FOLDER}", 1, 1), "the conclusions were never written", _HELP)]
    found = []
    for path, text in texts.items():
        if path not in stored:
            found.append(Finding(STALE, Spot(label + path, 1, 1), "this file is missing", _HELP))
        elif stored[path] != text:
            found.append(Finding(STALE, Spot(label + path, _first_difference(stored[path] or "", text), 1),
                                 "from this line on the catalog concludes something else", _HELP))
    for path, text in stored.items():
        if path not in texts:
            help = _HELP if _is_ours(text) else "move it out of this folder, which `handbook conclude` keeps"
            found.append(Finding(STALE, Spot(label + path, 1, 1), "this file belongs to no exercise or muscle", help))
    return sorted(found, key=lambda finding: finding.spot)


def _claim(conclusion: Conclusion, claim: Claim) -> Data:
    other = claim.comparator
    than = {"more_than": "more than", "less_than": "less than", "similar_to": "similar to"}[claim.direction]
    return {
        "claim": conclusion.claim_id, "outcome": conclusion.outcome,
        **({"relative to": claim.relative_to} if claim.relative_to else {}),
        "says": f"{than} {other.exercise or other.part}", "basis": conclusion.basis, "verdict": conclusion.verdict,
        **_certainty(conclusion), "sentence": conclusion.sentence,
        "parts": [{"part": comparison.question.part, **_answer(comparison)} for comparison in conclusion.comparisons]}


def _field(field: Field) -> Data:
    return {
        "part": field.part, "outcome": field.outcome,
        **({"relative to": field.relative_to} if field.relative_to else {}),
        "components": [_component(component) for component in field.components],
        "comparisons": [{"pair": f"{c.question.first} against {c.question.second}", **_answer(c)} for c in field.comparisons]}


def _component(component: Component) -> Data:
    # By the score as printed, so that noise in its last digit moves nobody.
    order = sorted(component.order, key=lambda ranked: (-rounding.p_score(ranked.p_score), ranked.exercise))
    told: dict[str, Data] = {"against": component.reference, "studies": component.samples, "people": component.people}
    if component.tau2 is not None and component.i2 is not None:
        told |= {"tau2": rounding.tau2(component.tau2), "i2": rounding.i2(component.i2)}
    return told | {"order": [_ranked(ranked) for ranked in order]}


def _ranked(ranked: Ranked) -> Data:
    return {"exercise": ranked.exercise, "p-score": rounding.p_score(ranked.p_score), **_estimate(ranked.against_reference)}


def _answer(comparison: Comparison) -> dict[str, Data]:
    told: dict[str, Data] = {"shape": comparison.shape, **_estimate(comparison.estimate)}
    if comparison.estimate and comparison.path:
        told["path"] = comparison.path
    if comparison.prediction:
        told["prediction"] = tuple(map(rounding.ratio, comparison.prediction))
    if comparison.directions != Directions():
        told["stated"] = str(comparison.directions)
    if comparison.studies:
        told |= {"studies": comparison.studies, "people": comparison.people}
    return told | _certainty(comparison)


def _estimate(estimate: Estimate | None) -> dict[str, Data]:
    if estimate is None:
        return {}
    return {"ratio": rounding.ratio(estimate.ratio), "interval": (rounding.ratio(estimate.low), rounding.ratio(estimate.high))}


def _certainty(rated: Conclusion | Comparison) -> dict[str, Data]:
    return {"certainty": rated.certainty.level} if rated.certainty else {}


def _stored(root: Path) -> dict[str, str | None]:
    """Path -> text of every file that stands in the folder; ``None`` for what is no readable text."""
    return {path.relative_to(root).as_posix(): _text(path) for path in sorted(_walk(root / FOLDER))}


def _walk(folder: Path) -> Iterator[Path]:
    if folder.is_symlink() or not folder.is_dir():
        return
    for path in folder.iterdir():
        if path.name.startswith("."):
            continue
        if path.is_dir() and not path.is_symlink():
            yield from _walk(path)
        else:
            yield path


def _text(path: Path) -> str | None:
    try:
        return None if path.is_symlink() else path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def _is_ours(text: str | None) -> bool:
    return text is not None and text.startswith(HEADER)


def _refuse_links(root: Path, folder: Path) -> None:
    for place in (folder, *folder.parents):
        if place == root:
            return
        if place.is_symlink():
            raise OSError(f"{place.name} is a link; make it a plain folder")


def _first_difference(old: str, new: str) -> int:
    """Number of the first line that differs, from 1; the last line of ``old`` when it only ends too early."""
    lines = old.splitlines()
    for number, (a, b) in enumerate(zip(lines, new.splitlines(), strict=False), 1):
        if a != b:
            return number
    return max(1, min(len(lines), len(new.splitlines()) + 1))
