"""Where each source is relied on: the way back from a source to every statement that rests on it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Any

from ...catalog import entries
from ...catalog.walk import Statement, statements
from ...movement.load import body_weight
from ..context import RenderContext, once
from ..sections import care as care_view
from . import programme


@dataclass(frozen=True)
class Mention:
    """One statement that cites a source."""

    uri: str
    anchor: str
    page: str
    """Name of the page it stands on."""
    kind: str
    """Claim, cue, fault, caution, fact, dose, advice, equation, line of care or convention."""
    text: str
    at: str | None
    """The place in the source."""


@once
def mentions(shelf: RenderContext) -> dict[str, list[Mention]]:
    """Reference key -> statements that cite it, in the catalog's order."""
    found: dict[str, list[Mention]] = defaultdict(list)
    for statement in statements(shelf.catalog):
        if not statement.basis.cites:
            continue
        uri, anchor, page = _place(shelf, statement)
        for citation in statement.basis.cites:
            found[citation.key].append(
                Mention(
                    uri,
                    anchor,
                    page,
                    statement.called.removeprefix("emphasis "),
                    _text(shelf, statement),
                    citation.at,
                )
            )
    return found


def _place(shelf: RenderContext, statement: Statement) -> tuple[str, str, str]:
    data, path = statement.entry.data, statement.path
    if isinstance(data, entries.Exercise):
        anchor = {
            "emphasis": f"claim-{int(path[1]) + 1}" if path[0] == "emphasis" else "",
            "cues": "how-to-do-it",
            "faults": "faults",
            "cautions": "cautions",
        }.get(str(path[0]), "load-and-length")
        return f"exercises/{statement.entry.id}.md", anchor, data.name
    if isinstance(data, entries.Muscle):
        if path[0] == "parts":
            ref = f"{statement.entry.id}/{path[1]}"
            return f"muscles/{ref}.md", "anatomy", data.parts[str(path[1])].name
        return f"muscles/{statement.entry.id}.md", "anatomy", data.name
    if isinstance(data, entries.Programme):
        return programme.URI, programme.anchor_of(statement.path), "How much, how often, how hard"
    if isinstance(data, entries.Vocabulary):
        return care_view.URI, care_view.ANCHOR, "Cautions"
    return "methods.md", "conventions", "Conventions"


def _text(shelf: RenderContext, statement: Statement) -> str:
    basis: Any = statement.basis
    if isinstance(basis, entries.Claim):
        return shelf.conclusions.of(statement.entry.id)[int(statement.path[1])].sentence
    if isinstance(basis, entries.Fault):
        return f"{basis.see} {basis.say}"
    if isinstance(basis, entries.Caution):
        return basis.who
    if isinstance(basis, entries.BodyWeightFraction):
        return body_weight.told(basis.value, basis.how)
    if isinstance(basis, entries.AuthoredCertainty):
        return basis.because
    return next(
        (
            str(getattr(basis, name))
            for name in ("say", "do", "means", "name")
            if hasattr(basis, name)
        ),
        statement.called,
    )
