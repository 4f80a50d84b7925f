"""The Jinja environment of the pages: autoescape on, undefined names are errors."""

from __future__ import annotations

import re
from datetime import date
from functools import cache
from typing import Any

from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined
from markupsafe import Markup
from markupsafe import escape as escape_html

from ..catalog.fixed_words import fixed_words
from ..english import lower_first, upper_first
from . import escape, sign
from .hosting.policy import hashed, policy

_WORDS = fixed_words("client")
#: Of a stylesheet: a text, which stays; a comment; blanks, with what they stand beside where none is needed.
_STYLE = re.compile(r'("[^"]*")|/\*.*?\*/|\s*([{};])\s*|([,:])\s+|\s+', re.DOTALL)
#: Where templates and stylesheets stand. No name occurs twice, so that a template is asked for by its name alone.
ROOMS = (
    *(
        f"templates/{room}"
        for room in (
            "pages",
            "evidence",
            "muscles",
            "sections",
            "planner",
            "client",
            "figures",
            "plots",
            "map",
            "lessons",
        )
    ),
    "styles",
    "styles/client",
)


@cache
def _environment() -> Environment:
    loader = ChoiceLoader([PackageLoader("build_tools.site", room) for room in ROOMS])
    env = Environment(
        loader=loader,
        autoescape=True,
        undefined=StrictUndefined,
        comment_start_string="<#",
        comment_end_string="#>",  # {# opens a heading's id
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    env.globals.update(sign=sign.address, lang=_WORDS["lang"], policy=policy, hashed=hashed)
    env.filters.update(
        heading=escape.heading,
        front_matter=escape.front_matter,
        one_line=escape.one_line,
        day=day,
        sentence=sentence,
        upper_first=upper_first,
        lower_first=lower_first,
        code=code,
        lean=lean,
    )
    return env


def render(template: str, **values: Any) -> str:
    """One page's text from its template."""
    return _environment().get_template(template).render(**values)


def day(value: date) -> str:
    """``20 November 2026``."""
    return f"{value.day} {_WORDS['months'][value.month - 1]} {value.year}"


def code(text: str) -> Markup:
    """Plain text in which `backticks` set code."""
    parts = [
        Markup("<code>{}</code>").format(part) if n % 2 else escape_html(part)
        for n, part in enumerate(text.split("`"))
    ]
    return Markup("").join(parts)


def sentence(text: str) -> str:
    """The text as a sentence: capital first letter, closing mark."""
    text = upper_first(text.strip())
    return text if text.endswith((".", "!", "?", "…", ".)")) else text + "."


def lean(css: str) -> Markup:
    """A stylesheet without comments and needless blanks, as Markup: nothing in it is anybody's text."""
    found = _STYLE.sub(lambda piece: piece[1] or piece[2] or piece[3] or " ", css)
    return Markup(found.replace(";}", "}").strip())
