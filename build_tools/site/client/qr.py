"""QR codes of addresses, as drawings inside a page and as files.

The symbol is made by segno after ISO/IEC 18004: error level M, quiet zone of four
modules. Always black on white, also on a dark page: many readers want it so.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from io import BytesIO

import segno
from markupsafe import Markup

#: Modules of white around the symbol, which the standard demands, and pixels of a module in the PNG.
QUIET, PIXELS = 4, 12
_COLOURS = {"dark": "#000", "light": "#fff"}


@dataclass(frozen=True)
class Qr:
    """The code of one address."""

    address: str

    @cached_property
    def _symbol(self) -> segno.QRCode:
        return segno.make(self.address, error="m", boost_error=False, micro=False)

    @property
    def drawing(self) -> Markup:
        """Inline SVG without a size or a name of its own; the page gives both."""
        return Markup(
            self._symbol.svg_inline(
                border=QUIET, omitsize=True, svgclass=None, lineclass=None, **_COLOURS
            )
        )

    @property
    def svg(self) -> bytes:
        """A stand-alone SVG, titled with its address."""
        return self._written(
            "svg", scale=PIXELS, svgclass=None, lineclass=None, title=self.address, nl=False
        )

    @property
    def png(self) -> bytes:
        """A black and white PNG, ``PIXELS`` pixels to a module."""
        return self._written("png", scale=PIXELS)

    def _written(self, kind: str, **options: object) -> bytes:
        out = BytesIO()
        self._symbol.save(out, kind=kind, border=QUIET, **_COLOURS, **options)
        return out.getvalue()
