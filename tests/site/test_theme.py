"""All that the handbook takes from inside the theme (mkdocs-material), in one list, held against the theme that is installed.

The theme promises its settings, blocks and partials; names of classes, ids and what its scripts read are its own affair and may change
with any release. Whoever uses another such name adds it here (the last test asks for it). When one is gone: look for its new name in the
folder of ``material/templates`` (``git log -S`` in the theme's repository), change it where this list says, build, and look at the page.
Until then hold the theme back: lower ``mkdocs-material``'s upper bound in ``pyproject.toml``, ``make lock``.
"""

from __future__ import annotations

import re
from pathlib import Path

import material
import pytest

from build_tools.site import frame

INSTALLED = Path(material.__file__).parent / "templates"
OURS = frame.TEMPLATES.parent

#: Blocks of base.html that ``theme/main.html`` completes or replaces.
BLOCKS = ("site_meta", "extrahead", "header", "content", "config", "scripts")
#: The theme's partials that those of ours in ``theme/partials`` stand in for.
REPLACED = ("footer.html", "javascripts", "logo.html", "nav.html", "toc-item.html")
#: Text of the theme's templates that is found and changed, or read: file -> text -> where we use it.
TEXTS = {
    "base.html": {
        '<meta charset="utf-8">': "main.html, site_meta: the policy stands right after it",
        'id="__drawer"': "header.js, drawer.css: the box that opens the list of all pages",
        'data-md-toggle="drawer"': "drawer.css",
        '<script id="__config" type="application/json">': "main.html, config: what the theme's script reads",
        "md-container": "drawer.css",
        "md-main__inner": "handbook.css: the width of a page",
        "md-sidebar--primary": "drawer.css: hidden while closed",
        "md-content__inner": "handbook.css: the width of the text; print",
        "block site_nav": "nav.html stands in it",
    },
    "partials/header.html": {
        '<div class="md-header__title"': "main.html, header: hidden from screen readers, as its names are told twice",
        "</nav>": "main.html, header: the search stands before its end",
        'for="__drawer"': "header.js: becomes a button",
        "config.theme.palette is mapping": "frame.py: the theme then leaves the choice of colours to theme.js",
        'include "partials/logo.html"': "ours stands in",
    },
    "partials/content.html": {"<h1>": "ready.py: a page without a title gets one"},
    "partials/tabs-item.html": {"md-tabs__item--active": "handbook.css: the door at hand"},
    "partials/toc.html": {
        "md-nav--secondary": "handbook.css: the contents beside a page",
        "md-nav__title": "handbook.css",
    },
}
#: Names that the theme's style must know, or ours has nothing to change: where it is used.
STYLED = {
    "md-content": "handbook.css", "md-footer": "footer.html", "md-grid": "handbook.css", "md-header": "handbook.css, print",
    "md-header__button": "theme.js, drawer.css", "md-header__option": "theme.js", "md-icon": "theme.js", "md-logo": "nav.html",
    "md-nav--primary": "nav.html", "md-nav__button": "nav.html", "md-nav__item": "toc-item.html", "md-nav__link": "toc-item.html",
    "md-nav__list": "nav.html, drawer.css", "md-option": "theme.js", "md-sidebar": "print", "md-tabs": "handbook.css, print",
    "md-tabs__link": "handbook.css", "md-typeset": "nearly every style", "md-ellipsis": "toc-item.html", "md-nav": "nav.html",
}  # fmt: skip
#: What the theme's script must still read or write.
SCRIPTED = {
    "__palette": "theme.js, header.js: where the choice of colours is kept",
    "data-md-color-": "handbook.css: the scheme of a page stands on its body",
    "nextElementSibling": "theme.js: each choice is followed by its button",
    "md-nav__link--active": "handbook.css: the place in the contents while a page is read",
    "md-typeset__scrollwrap": "handbook.css: tables of pages written by hand",
    "md-typeset__table": "handbook.css: the same",
    "data-md-component": "nav.html, theme.js",
    "scrollfix": "nav.html",
    **dict.fromkeys(
        ("__md_get", "__md_set", "__md_hash"),
        "theme.js stands in for what the theme writes into every page",
    ),
}
#: Its variables of colours and fonts that ``handbook.css`` sets.
VARIABLES = re.compile(
    r"--md-(?:text-font|code-font|[a-z]+-(?:fg|bg)-color[a-z-]*|typeset-(?:a-)?color)"
)

GONE = "the installed theme has no {what} any more, which {where} needs; how to mend it stands at the top of this file"


def read(name: str) -> str:
    return (INSTALLED / name).read_text(encoding="utf-8")


def bundled(pattern: str) -> str:
    """The files whose names carry a hash of their content; no page of ours names them."""
    found = sorted((INSTALLED / "assets").glob(pattern))
    assert found, GONE.format(what=f"assets/{pattern}", where="the built site")
    return "".join(file.read_text(encoding="utf-8") for file in found)


def has(text: str, name: str) -> bool:
    """Whether a name stands in a text as a whole."""
    return re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text) is not None


@pytest.mark.parametrize("block", BLOCKS)
def test_the_theme_has_the_blocks(block: str) -> None:
    base = read("base.html")
    assert re.search(rf"{{%-? block {block} -?%}}", base), GONE.format(
        what=f"block {block}", where="theme/main.html"
    )


def test_no_block_is_filled_that_is_not_listed() -> None:
    ours = (frame.TEMPLATES / "main.html").read_text(encoding="utf-8")
    assert set(re.findall(r"{%-? block (\w+)", ours)) == set(BLOCKS)


def test_the_theme_has_the_partials() -> None:
    ours = {file.name for file in (frame.TEMPLATES / "partials").iterdir()}
    theirs = {file.name for file in (INSTALLED / "partials").iterdir()}
    assert set(REPLACED) <= ours
    # What the theme has not is included by ours alone.
    assert ours - theirs == {"bearings.html", "find_box.html"}, GONE.format(
        what=f"partials {sorted(set(REPLACED) - theirs)}", where="theme/partials"
    )


@pytest.mark.parametrize(
    ("file", "text"), [(file, text) for file, texts in TEXTS.items() for text in texts]
)
def test_the_theme_has_the_text(file: str, text: str) -> None:
    assert text in read(file), GONE.format(what=f"{text!r} in {file}", where=TEXTS[file][text])


@pytest.mark.parametrize("name", STYLED)
def test_the_theme_styles_the_name(name: str) -> None:
    assert f".{name}" in bundled("stylesheets/main.*.css"), GONE.format(
        what=f"style of {name}", where=STYLED[name]
    )


@pytest.mark.parametrize("name", SCRIPTED)
def test_the_theme_s_script_knows_the_name(name: str) -> None:
    assert name in bundled("javascripts/bundle.*.js"), GONE.format(
        what=f"script that reads {name}", where=SCRIPTED[name]
    )


def test_the_theme_has_the_variables() -> None:
    ours = "".join(file.read_text(encoding="utf-8") for file in (OURS / "styles").glob("handbook*"))
    theirs = bundled("stylesheets/*.css")
    for name in sorted(set(VARIABLES.findall(ours))):
        assert name in theirs, GONE.format(
            what=f"variable {name}", where="styles/handbook.css.jinja"
        )


@pytest.mark.parametrize("name", frame.INLINE)
def test_the_scripts_that_a_policy_allows_are_where_they_were(name: str) -> None:
    assert (INSTALLED / name).is_file(), GONE.format(
        what=name, where="the policy of every page (frame.INLINE)"
    )
    included = "".join(file.read_text(encoding="utf-8") for file in INSTALLED.rglob("*.html"))
    assert f'"{name}"' in included, GONE.format(what=f"place for {name}", where="frame.INLINE")


@pytest.mark.parametrize("setting", [*frame.theme([]), "logo", "favicon"])
def test_the_theme_takes_the_setting(setting: str) -> None:
    templates = "".join(file.read_text(encoding="utf-8") for file in INSTALLED.rglob("*.html"))
    assert f"config.theme.{setting}" in templates, GONE.format(
        what=f"setting {setting}", where="frame.theme"
    )


def test_nothing_is_taken_from_the_theme_that_is_not_listed() -> None:
    """Every name of the theme's that our templates, styles and scripts use."""
    told = " ".join([*STYLED, *SCRIPTED, *(text for texts in TEXTS.values() for text in texts)])
    used: dict[str, str] = {}
    for room in ("styles", "theme", "scripts", "templates"):
        for file in (OURS / room).rglob("*.*"):
            if "lean-qr" in file.name or "searchable-map" in file.name:
                continue
            text = re.sub(
                r"{#.*?#}|/\*.*?\*/", "", file.read_text(encoding="utf-8"), flags=re.DOTALL
            )
            for name in re.findall(
                r"(?<![\w-])(?:md-[a-z][\w-]*|__(?:drawer|palette|config|search|toc)\b)", text
            ):
                used.setdefault(name, file.name)
    missing = {name: file for name, file in used.items() if name not in told}
    assert not missing, f"taken from the theme, but not in the list of this file: {missing}"
