"""Text that means something to HTML, Markdown, attribute lists, Jinja or front matter, and catalogs full of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, get_args

from hypothesis import strategies as st
from pydantic import BaseModel

from build_tools.catalog import entries
from build_tools.catalog.load import Catalog

# Pieces that mean something to HTML, Markdown, attribute lists, Jinja or front matter.
PIECES = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</p>",
    "</details>",
    "-->",
    "<!--",
    "</pre>",
    "&lt;b&gt;",
    "&#60;",
    '"',
    "'",
    "`",
    "```",
    "~~~",
    "# ",
    "\n# ",
    "\n\n## x {#y}",
    "{: onclick=x }",
    "{#top}",
    "[x](javascript:1)",
    "![x](y)",
    "{{ 7*7 }}",
    "{% raw %}",
    "---",
    "\n---\n",
    "|",
    "*",
    "__",
    "\\",
    "\t",
    "<!-- handbook: notice -->",
    "\x02wzxhzdk:0\x03",
    "https://example.org",
    "é",
    "漢",
    "\U0001f600",
    "a",
    " ",
]


HOSTILE = st.lists(
    st.sampled_from(PIECES) | st.text(st.characters(exclude_categories=["Cs"]), max_size=5),
    min_size=1,
    max_size=6,
).map("".join)


#: What runs, or leaves its place, wherever a text is not told to be one: elements, attributes, addresses, Markdown, templates, XML, JSON,
#: calendars, spreadsheets. After the kinds of context in OWASP's sheet on preventing cross-site scripting, put together from memory.
_RUN = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "<svg onload=alert(1)>",
    "<iframe srcdoc='<script>parent.alert(1)</script>'>",
    "<body onpageshow=alert(1)>",
    "<details open ontoggle=alert(1)>",
    "<input autofocus onfocus=alert(1)>",
    "<video src=x onerror=alert(1)>",
    "<a href=javascript:alert(1)>x</a>",
    "<base href=https://x.example/>",
    "<meta http-equiv=refresh content='0;url=https://x.example/'>",
    "<link rel=stylesheet href=https://x.example/a.css>",
    "<style>@import 'https://x.example/a.css'</style>",
    "<form action=https://x.example/><button>x",
)
_BEFORE = (
    "",
    '"',
    "'",
    "'\">",
    "-->",
    "]]>",
    "</p>",
    "</title>",
    "</script>",
    "</textarea></style></noscript>",
)
PAYLOADS = [
    *(before + run for run in _RUN for before in _BEFORE),
    '" onmouseover="alert(1)',
    "' autofocus onfocus='alert(1)",
    "` onclick=`alert(1)",
    "{: onclick=alert(1) }",
    "{#top onclick=alert(1)}",
    "[x](javascript:alert(1))",
    "![x](https://x.example/a.png)",
    "<https://x.example/>",
    "{{ 7*7 }}",
    "{% raw %}",
    "${alert(1)}",
    "<!-- handbook: notice -->",
    "&lt;script&gt;alert(1)&lt;/script&gt;",
    "&#60;script&#62;alert(1)&#60;/script&#62;",
    "\u003cscript\u003ealert(1)\u003c/script\u003e",
    "<!--<script>",
    "<![CDATA[<script>alert(1)</script>]]>",
    "<?xml-stylesheet href='https://x.example/a.css'?>",
    "<!ENTITY x SYSTEM 'file:///etc/passwd'>&x;",
    "\u202e<script>alert(1)</script>",
    "=HYPERLINK(A1)",
    "=cmd' /C calc'!A0",
    "+1+1",
    "-1+1",
    "@SUM(1+1)",
    "\t=1+1",
    "\\",
    "`",
    "|",
    "~~~",
    "漢é\U0001f600",
]


def poisoned(catalog: Catalog, text: str | Callable[[], str]) -> Catalog:
    """The catalog with ``text``, or what it gives each time, added to every free text in it (ids, keys and places of files stay)."""
    more = text if callable(text) else lambda: text
    vocabulary = catalog.vocabulary.data
    ids = {
        *vocabulary.regions,
        *vocabulary.concerns,
        *vocabulary.equipment,
        *vocabulary.positions,
        *vocabulary.joints,
        *vocabulary.load_points,
        *vocabulary.designs,
        *vocabulary.measures,
        *catalog.exercises,
        *catalog.references,
        *catalog.part_refs(),
        "growth",
        "activation",
        "cable",
        "machine",
        "both",
        "one",
        "direct",
        "indirect",
        "of",
        "against",
        "neither",
        "strength",
        *(arm for study in catalog.studies.values() for arm in study.data.arms),
        *get_args(entries.Test),
        *get_args(entries.Allocation),
        "part",
        "together",
        "whole",
        *vocabulary.versions,
        "foot",
        "shank",
        "thigh",
        "trunk",
        "up",
        "down",
        "this",
        "other",
        "side",
        "front",
        "above",
        "low",
        "mid",
        "high",
        "free-weight",
        "band",
        "body-weight",
        "power",
    }

    def poison(value: Any) -> Any:
        if isinstance(value, str):
            return value if value in ids else value + more()
        if isinstance(value, list):
            return [poison(item) for item in value]
        if isinstance(value, dict):
            return {key: poison(item) for key, item in value.items()}
        if isinstance(value, BaseModel):
            return value.model_copy(
                update={name: poison(getattr(value, name)) for name in type(value).model_fields}
            )
        return value

    for group in (catalog.muscles, catalog.exercises, catalog.studies):
        for entry in group.values():
            object.__setattr__(entry, "data", poison(entry.data))
    for single in (catalog.handbook, catalog.vocabulary, catalog.programme):
        object.__setattr__(single, "data", poison(single.data))
    for reference in catalog.references.values():
        for name in ("title", "journal", "volume", "pages", "readat", "recheck", "bibtex"):
            object.__setattr__(reference, name, getattr(reference, name) + more())
    return catalog
