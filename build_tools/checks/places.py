"""The words that say where in a source something stands, and which of them an abstract cannot hold.

A place starts with one of these words; what follows (a number, a comma and more) is free.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from build_tools.catalog.bibliography.references import Reference
from build_tools.catalog.complaints import did_you_mean

#: Seen with the abstract or the record.
ABSTRACT = (
    "abstract",
    "title",
    "summary",
    "part of the abstract",
    "highlights",
    "key findings",
    "record",
)
#: Seen only in the text itself, and what else each may be written as.
TEXT = {
    "table": ("table", "tables"),
    "figure": ("figure", "figures", "fig"),
    "p": ("p", "pp", "page", "pages"),
    "section": ("section", "sections"),
    "chapter": ("chapter", "chapters"),
    "introduction": ("introduction",),
    "methods": ("methods", "method"),
    "results": ("results",),
    "discussion": ("discussion",),
    "conclusion": ("conclusion", "conclusions"),
    "appendix": ("appendix",),
    "supplement": ("supplement", "supplementary"),
    "box": ("box",),
    "equation": ("equation", "equations"),
    "recommendation": ("recommendation", "recommendations"),
    "list": ("list", "lists"),
    "caption": ("caption",),
    "text": ("text", "full text"),
}
#: Seen outside the paper, which the words say themselves.
ELSEWHERE = (
    "second-hand",
    "journal page",
    "publisher page",
    "front matter",
    "data",
    "data file",
    "file",
    "rows",
    "open data",
    "conference poster",
    "congress abstract",
)

_TEXT_WORDS = {word: place for place, words in TEXT.items() for word in words}
_WORDS = (*ABSTRACT, *_TEXT_WORDS, *ELSEWHERE)
#: A place may be narrowed first: start of the abstract, caption of Figure 6.
_PORTION = r"(?:(?:the |its )?(?:start|beginning|middle|end|part|caption|notes?|footnote) (?:of|to) )?(?:the |its )?"
_START = re.compile(
    rf"{_PORTION}({'|'.join(sorted(map(re.escape, _WORDS), key=len, reverse=True))})\b",
    re.IGNORECASE,
)
#: A place of the text with its number, wherever it stands among the words.
_NUMBERED = re.compile(
    r"\b(tables?|figures?|fig|pp?|pages?|sections?|chapters?|box|equations?|recommendations?)"
    r"\.?\s?(\d[\d.]*|[ivx]+\b|S\d+)",
    re.IGNORECASE,
)
_OF_ANOTHER = re.compile(r"\bof ([a-z][a-z0-9]*[0-9]{4}[a-z]?)\b")
_SECOND_HAND = re.compile(r"\b(second-hand|restatements?|restated)\b", re.IGNORECASE)
#: Of these only the abstract, a part of it or less was read.
_LITTLE = ("abstract", "part of abstract", "record", "memory")


def is_place(at: str) -> bool:
    """Whether ``at`` starts with a word that places have."""
    return _START.match(at.strip()) is not None


def first_word(at: str) -> str:
    """The word that should have been a place."""
    return re.split(r"[\s,;:.(]", at.strip(), maxsplit=1)[0]


def nearest_place(at: str) -> str:
    """What to write for a word that is none."""
    near = did_you_mean(first_word(at).lower(), list(_WORDS))
    return near or "start with the place: abstract, Table 2, Figure 1, p. 830, section 3.1, results"


def beyond_the_abstract(
    at: str, reference: Reference, references: Mapping[str, Reference]
) -> str | None:
    """The first place in ``at`` that nobody says to have read, or ``None``.

    ``readat`` counts: "journal page, abstract and table 3" lets Table 3 be cited. A place that is
    called second-hand or a restatement claims no reading. A place of another source (Table 3 of
    smith2024) needs that one's record.
    """
    if _SECOND_HAND.search(at):
        return None
    if other := _OF_ANOTHER.search(at):
        return None if other[1] in references else at
    if reference.read not in _LITTLE:
        return None
    for word, number in _text_places(at):
        if not _is_told(word, number, reference.readat):
            return f"{word} {number}".strip()
    return None


def _text_places(at: str) -> list[tuple[str, str]]:
    numbered = [(found[1], found[2].rstrip(".")) for found in _NUMBERED.finditer(at)]
    start = _START.match(at.strip())
    if numbered or start is None or start[1].lower() not in _TEXT_WORDS:
        return numbered
    return [(start[1], "")]


def _is_told(word: str, number: str, readat: str) -> bool:
    """Whether ``readat`` names the place, or the whole text."""
    words = TEXT[_TEXT_WORDS[word.lower()]]
    number = rf"\.?\s?{re.escape(number)}(?![\d])" if number else ""
    return (
        re.search(rf"\b(?:(?:{'|'.join(words)}){number}|full text)\b", readat, re.IGNORECASE)
        is not None
    )
