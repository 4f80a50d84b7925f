"""The page Find: exercises by part, evidence, equipment, position, sides, care and name."""

from __future__ import annotations

from dataclasses import dataclass

from ...evidence_map.marks import LEGEND
from ...planning.order import PlaceKind
from ...planning.words import PLACE_WORDS
from ..context import RenderContext
from ..map import mark as marks
from . import page
from .choices import choices

URI = "find.md"
#: What can put an exercise ahead, as the form has them.
_KINDS: tuple[PlaceKind, ...] = ("growth", "activation", "length", "taught")


@dataclass(frozen=True)
class FindForm:
    """The choices that only this form has: values and names."""

    kinds: list[tuple[str, str]]
    positions: list[tuple[str, str]]


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return page.text(
        shelf,
        "find",
        "Find",
        "Exercises by the part they train, the evidence, the equipment at hand and who should take care.",
        [("Compare", "compare.md")],
        form=_form(shelf),
        choices=choices(shelf.vocabulary),
        marks=marks,
        legend=LEGEND,
    )


def _form(shelf: RenderContext) -> FindForm:
    return FindForm(
        [(kind, PLACE_WORDS[kind][0]) for kind in _KINDS],
        [(id, position.name) for id, position in shelf.vocabulary.positions.items()],
    )
