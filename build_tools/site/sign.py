"""The handbook's own sign, four bars, in the colour that a handbook gives it."""

from __future__ import annotations

from urllib.parse import quote

from markupsafe import Markup

#: Drawn in a square of this side.
BARS, SIDE = "M4 19V9M9.3 19v-6M14.7 19V5M20 19v-9", 24


def svg(colour: str) -> str:
    """The drawing as a file."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIDE} {SIDE}"><path fill="none" stroke="{colour}" '
        f'stroke-width="2.4" stroke-linecap="round" d="{BARS}"/></svg>'
    )


def address(colour: str) -> Markup:
    """The drawing as an address that holds it, for pages of one request."""
    single = svg(colour).replace('"', "'")
    return Markup("data:image/svg+xml," + quote(single, safe=" ='/:"))
