"""Catalog text as it may stand outside raw HTML: in Markdown headings and in front matter.

Inside HTML the templates escape by themselves. These two places need more: a
heading is Markdown, and page generators print titles and descriptions as they are.
"""

from __future__ import annotations

import re
from typing import Any

import yaml
from markupsafe import Markup

#: Characters that mean nothing to Markdown, HTML or attribute lists wherever they stand in a heading.
_STRUCTURE = re.compile(r"[^\w (),.'’/°%–-]|_")
_TYPOGRAPHIC = str.maketrans({"<": "‹", ">": "›", '"': "”", "&": "+", "`": "'"})


def heading(text: str) -> Markup:
    """Text for a Markdown heading: one line, every structural character as a character reference."""
    return Markup(_STRUCTURE.sub(lambda m: f"&#{ord(m.group())};", " ".join(text.split())))


def plain(text: str) -> str:
    """Text without the characters that HTML gives a meaning, for places where nobody escapes."""
    return " ".join(text.translate(_TYPOGRAPHIC).split())


def front_matter(meta: dict[str, Any]) -> Markup:
    """YAML front matter; text values are made plain first."""
    data = {key: plain(value) if isinstance(value, str) else value for key, value in meta.items()}
    return Markup(
        "---\n" + yaml.dump(data, Dumper=yaml.CSafeDumper, sort_keys=False, width=10_000) + "---"
    )


#: Characters that XML 1.0 allows nowhere, not even escaped (section 2.2 of the recommendation).
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml_text(text: str) -> str:
    """A drawn file without the characters that would make it no XML."""
    return _NOT_XML.sub("", text)


def one_line(text: str) -> Markup:
    """Several lines as one HTML line (for ``pre``), so that no line of it can begin a Markdown block."""
    return Markup(str(Markup.escape(text)).replace("\r", "").replace("\n", "&#10;"))
