"""The page Find: exercises by part, evidence, equipment, position, sides, care and name."""

from __future__ import annotations

from dataclasses import dataclass

from ...evidence_map.marks import LEGEND
from ...planning.kits import kits
from ...planning.order import PlaceKind
from ...planning.words import PLACE_WORDS
from ..context import RenderContext
from ..map import mark as marks
from . import page

URI = "find.md"
#: What can put an exercise ahead, as the form has them.
_KINDS: tuple[PlaceKind, ...] = ("growth", "activation", "length", "taught")
#: The value of the body alone, as it stands in the address.
_NOTHING = "none"


@dataclass(frozen=True)
class FindForm:
    """The choices of the form: values and names."""

    kinds: list[tuple[str, str]]
    kits: list[tuple[str, str]]
    """The value holds the equipment of the kit, in order of the alphabet."""
    equipment: list[tuple[str, str]]
    positions: list[tuple[str, str]]
    concerns: list[tuple[str, str]]


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return page.text(
        shelf,
        "find",
        "Find",
        "Exercises by the part they train, the evidence, the equipment at hand and who should take care.",
        [("Compare", "compare.md")],
        form=_form(shelf),
        marks=marks,
        legend=LEGEND,
    )


def _form(shelf: RenderContext) -> FindForm:
    words = shelf.vocabulary
    return FindForm(
        [(kind, PLACE_WORDS[kind][0]) for kind in _KINDS],
        [(",".join(sorted(things)) or _NOTHING, name) for name, things in kits(words.equipment)],
        [
            (_NOTHING, "Nothing but the body"),
            *((id, kit.name) for id, kit in words.equipment.items() if id != _NOTHING),
        ],
        [(id, position.name) for id, position in words.positions.items()],
        [(id, concern.name) for id, concern in words.concerns.items()],
    )
