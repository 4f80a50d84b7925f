"""The colours that a handbook chooses can be read.

Why: links, buttons and marks have the accent, and whoever sees less than others must
still see them. WCAG 2.2 asks for a contrast of 4.5 to 1 between text and what it stands
on (1.4.3, level AA), and of 3 to 1 for a sign that must be seen (1.4.11).

Instead: take a darker colour for light screens, a lighter one for dark screens. The
help names the nearest shade that passes.

Fails: handbook.yaml 1:18
    palette: {light: "#e8a33d", dark: "#86cbc5"}

Passes: handbook.yaml
    palette: {light: "#7a4a00", dark: "#f2c27a"}
"""

from collections.abc import Iterator

from build_tools.catalog.palette import Palette, contrast, nearest
from build_tools.checks.rule import Context, Problem

_WORDS = {
    "light": "the accent on light screens",
    "dark": "the accent on dark screens",
    "mark": "the handbook's sign",
}


def check(context: Context) -> Iterator[Problem]:
    """Chosen colours that contrast too little with what they stand on."""
    handbook = context.catalog.handbook
    chosen = handbook.data.palette if handbook else None
    if handbook is None or chosen is None:
        return
    for key, colour, surfaces, least in Palette.of(chosen).surfaces():
        worst = min(surfaces, key=lambda on: contrast(colour, on))
        found = contrast(colour, worst)
        if found < least:
            other = nearest(colour, surfaces, least)
            yield Problem(
                handbook.spot("palette", key),
                f"{_WORDS[key]}, {colour}, has a contrast of {found:.1f} to 1 on {worst}; it needs {least:g} to 1",
                f'write another shade, such as `{key}: "{other}"`'
                if other
                else f"add another colour as `{key}:`",
            )
