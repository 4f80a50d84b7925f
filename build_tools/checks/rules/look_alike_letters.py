"""Every word is written in one alphabet.

Why: a Cyrillic or Greek letter that looks like a Latin one cannot be seen, and no
search finds the word. It comes with text that was copied from elsewhere.

Instead: type the word anew. A word that is Cyrillic or Greek from end to end may
stand, and so may a Greek letter that looks like no other, as in TGF-β.

Fails: exercises/crate-curl.yaml 1:7 2:15
    name: Сrate curl
    also_called: [bοx curl]

Fails: references.bib 1:1
    @article{dusk2028,
      author = {Dusk, Eve},
      title = {Lаmps at dusk},
      journal = {Journal of Invented Results},
      year = {2028},
      read = {abstract},
      readat = {this file},
    }

Passes: exercises/crate-curl.yaml
    name: Crate curl
    also_called: [ящик curl, 5 μm curl]
"""

import re
import unicodedata
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.bibliography.references import Reference
from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import texts_of, yaml_entries
from build_tools.checks.rule import Context, Problem

#: Greek letters that are drawn like Latin ones (after the confusables of Unicode Technical Standard 39, from memory).
GREEK = set("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧνικορυχ")
_WORD = re.compile(r"[^\W\d_]+")


def check(context: Context) -> Iterator[Problem]:
    """Words with a letter of another alphabet."""
    for entry in yaml_entries(context.catalog):
        yield from _of_entry(entry)
    for reference in context.catalog.references.values():
        for word, letter in mixed(_text(reference)):
            yield Problem(reference.spot, *_told(word, letter))


@once_per_entry
def _of_entry(entry: Loaded[Any]) -> list[Problem]:
    return [
        Problem(entry.spot(*path), *_told(word, letter))
        for path, text in texts_of(entry)
        for word, letter in mixed(text)
    ]


def mixed(text: str) -> Iterator[tuple[str, str]]:
    """Each word of Latin letters that holds a look-alike, and the first one in it."""
    if text.isascii():
        return
    for word in _WORD.findall(text):
        if any(_alphabet(letter) == "LATIN" for letter in word):
            odd = next(
                (letter for letter in word if letter in GREEK or _alphabet(letter) == "CYRILLIC"),
                None,
            )
            if odd:
                yield word, odd


def _alphabet(letter: str) -> str:
    return unicodedata.name(letter, "").partition(" ")[0]


def _told(word: str, letter: str) -> tuple[str, str]:
    return (
        f"`{word}` holds the letter {unicodedata.name(letter).capitalize()} (U+{ord(letter):04X}) among Latin ones",
        "type the word anew on this keyboard",
    )


def _text(reference: Reference) -> str:
    names = (family for people in (reference.authors, reference.editors) for family, _ in people)
    return " ".join(
        [
            *names,
            *(initials for _, initials in reference.authors),
            reference.title,
            reference.journal,
            reference.booktitle,
            reference.publisher,
            reference.readat,
            reference.recheck,
        ]
    )
