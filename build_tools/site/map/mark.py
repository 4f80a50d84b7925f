"""How marks look and what they are called: the same on every page, never by colour alone.

Shape tells the kind (square: growth, circle: activation, dash: long under load, dot: taught), the inside what was found.
"""

from __future__ import annotations

from markupsafe import Markup

from ...evidence_map.marks import Fill, Mark

#: Edge of a mark's own square, drawing units.
SIDE = 16
#: Mark -> its drawing. Outlines are stroked, `class="in"` is filled.
_SQUARE, _CIRCLE = "M3 3H13V13H3Z", "M8 2.5A5.5 5.5 0 1 1 8 13.5 5.5 5.5 0 1 1 8 2.5Z"
_INSIDE: dict[tuple[str, Fill], str] = {
    ("growth", "found"): "M3 3H13V13H3Z",
    ("growth", "hinted"): "M3 13V3L13 13Z",
    ("growth", "no more"): "M3 7H13V9H3Z",
    ("activation", "found"): _CIRCLE,
    ("activation", "hinted"): "M4.1 4.1A5.5 5.5 0 0 0 11.9 11.9Z",
    ("activation", "no more"): "M2.5 7H13.5V9H2.5Z",
}
#: Mark -> what it says, in the legend and for whoever does not see it.
_WORDS: dict[tuple[str, Fill | None], str] = {
    ("growth", "found"): "grew more",
    ("growth", "hinted"): "leans to more growth",
    ("growth", "wider"): "more growth, of the whole muscle or of several parts measured together",
    ("growth", "no more"): "growth measured, not shown to be more",
    ("activation", "found"): "more active in one session",
    ("activation", "hinted"): "leans to more active in one session",
    ("activation", "wider"): "more active in one session, several parts measured together",
    ("activation", "no more"): "activity measured, not shown to be more",
    ("length", None): "long under load, by the model",
    ("taught", None): "commonly taught, untested",
}


def words(mark: Mark) -> str:
    """What a mark says: ``leans to more growth``."""
    return _WORDS[mark.kind, mark.fill]


def paths(mark: Mark) -> Markup:
    """The inside of a mark's drawing, in a square of ``SIDE`` units: for one picture, or for a symbol that many places use."""
    if mark.kind == "length":
        return Markup('<path class="in" d="M1 6.5H15V9.5H1Z"/>')
    if mark.kind == "taught":
        return Markup('<circle class="in" cx="8" cy="8" r="2.2"/>')
    outline = _SQUARE if mark.kind == "growth" else _CIRCLE
    inside = _INSIDE.get((mark.kind, mark.fill)) if mark.fill else None
    filled = Markup('<path class="in" d="{}"/>').format(inside) if inside else Markup("")
    return filled + Markup('<path class="out" d="{}"/>').format(outline)


def drawing(mark: Mark) -> Markup:
    """A mark as a picture beside words that say the same; hidden from readers that hear the page."""
    return Markup(
        '<svg class="hb-sign hb-sign--{}" viewBox="0 0 {} {}" aria-hidden="true">{}</svg>'
    ).format(mark.kind, SIDE, SIDE, paths(mark))


def symbol(mark: Mark) -> str:
    """The id of a mark's symbol on a page that draws it many times: ``sign-growth-no-more``."""
    return "-".join(["sign", mark.kind, *([mark.fill.replace(" ", "-")] if mark.fill else [])])
