"""Every colour of the handbook, once: warm paper, ink, and the accent that a handbook may choose; and how far two colours contrast.

A colour is ``#rrggbb`` or ``#rgb``. What stands for kinds of evidence or for care is the same in every handbook.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from .entries import Accents

_LIGHT = {
    "paper": "#fbf9f5",
    "panel": "#f3efe7",
    "line": "#ddd6c9",
    "ink": "#26231f",
    "quiet": "#5f594f",
    "activation": "#8a4b08",
    "taught": "#5f594f",
    "care": "#8f3a1e",
}
_DARK = {
    "paper": "#1b1a18",
    "panel": "#262420",
    "line": "#413d36",
    "ink": "#e9e4da",
    "quiet": "#b3ab9d",
    "activation": "#e6b066",
    "taught": "#b3ab9d",
    "care": "#f0a487",
}
_WHITE, _BLACK = "#fff", "#000"
_PRINT = {
    "paper": _WHITE,
    "panel": "#f2f2f2",
    "line": "#bbb",
    "ink": _BLACK,
    "quiet": "#444",
}
#: What the sign stands on.
_PAPERS = [_LIGHT["paper"], _DARK["paper"]]
#: How much of the accent stands in the tint of drawn files, and in what the pages mark with it.
_TINT, MARKED = 0.11, 0.12
#: Least contrast of text, and of a sign that must be seen: WCAG 2.2, success criteria 1.4.3 and 1.4.11.
TEXT, SIGN = 4.5, 3.0


@dataclass(frozen=True)
class Palette:
    """Role -> colour, for each place where pages are seen."""

    accent: str = "#155e5b"
    accent_dark: str = "#86cbc5"
    mark: str = "#3c8f89"
    """The handbook's sign, which stands on light and on dark."""

    @classmethod
    def of(cls, chosen: Accents | None) -> Palette:
        """The colours of a handbook that chose these, or none."""
        if chosen is None:
            return cls()
        between = mix(chosen.light, chosen.dark, 0.35)
        return cls(
            chosen.light, chosen.dark, chosen.mark or nearest(between, _PAPERS, SIGN) or between
        )

    @property
    def light(self) -> dict[str, str]:
        """On light screens."""
        return {**_LIGHT, "accent": self.accent, "growth": self.accent}

    @property
    def dark(self) -> dict[str, str]:
        """On dark screens."""
        return {**_DARK, "accent": self.accent_dark, "growth": self.accent_dark}

    @property
    def print(self) -> dict[str, str]:
        """What differs from a light screen on paper."""
        return _PRINT

    @property
    def client(self) -> dict[str, dict[str, str]]:
        """For clients, who read on a gym floor: lines and quieter words stand out more."""
        return {
            "light": {**self.light, "line": "#c9c1b2", "quiet": "#4f4a41", "care": "#82321a"},
            "dark": {**self.dark, "line": "#5a5449", "ink": "#f2ede3", "quiet": "#bfb7a9"},
            "print": {**_PRINT, "panel": _WHITE, "line": "#999", "quiet": "#333"},
        }

    @property
    def file(self) -> dict[str, str]:
        """Files of drawings, which stand on white wherever they are pasted."""
        tint = mix(_WHITE, self.accent, _TINT)
        return {
            "paper": _WHITE,
            "panel": "#f0ebe1",
            "tint": tint,
            "band": "#d8d1c3",
            "line": "#c9c1b2",
        }

    @staticmethod
    def properties(prefix: str, colours: Mapping[str, str], roles: Sequence[str]) -> str:
        """The roles as custom properties of a stylesheet: ``--paper: #fbf9f5; --panel: ...``."""
        return " ".join(f"--{prefix}{role}: {colours[role]};" for role in roles)

    def surfaces(self) -> Iterator[tuple[str, str, list[str], float]]:
        """Each colour that a handbook may choose: its key, the colour, all that it stands on, and the least contrast with that."""
        for key, shades in (("light", self.light), ("dark", self.dark)):
            accent = shades["accent"]
            marked = mix(shades["paper"], accent, MARKED)
            yield key, accent, [shades["paper"], shades["panel"], marked], TEXT
        yield "mark", self.mark, _PAPERS, SIGN


def rgb(colour: str) -> tuple[int, int, int]:
    """Red, green and blue, 0 to 255."""
    digits = colour.removeprefix("#")
    red, green, blue = bytes.fromhex(
        digits if len(digits) == 6 else "".join(2 * digit for digit in digits)
    )
    return red, green, blue


def mix(one: str, other: str, share: float) -> str:
    """A colour with a ``share`` of the other, channel by channel."""
    mixed = (round(a + (b - a) * share) for a, b in zip(rgb(one), rgb(other), strict=True))
    return "#" + bytes(mixed).hex()


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, 1 to 21 (WCAG 2.2, definitions of contrast ratio and relative luminance)."""
    darker, lighter = sorted(map(_luminance, (one, other)))
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    shares = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
        for c in (value / 255 for value in rgb(colour))
    ]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), shares, strict=True))


def nearest(colour: str, surfaces: Sequence[str], least: float) -> str | None:
    """The colour, or its nearest shade towards black or white, that contrasts so with all surfaces; None where there is none."""
    shades = (mix(colour, end, n / 50) for n in range(51) for end in (_BLACK, _WHITE))
    return next((s for s in shades if all(contrast(s, on) >= least for on in surfaces)), None)
