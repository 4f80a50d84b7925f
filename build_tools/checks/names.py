"""Names of exercises, and how near two of them are."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.entries import Vocabulary
from build_tools.catalog.load import Catalog, Loaded
from build_tools.catalog.walk import Path

#: Shorter words have too many true neighbours (row and bow, high and thigh).
TYPO_LENGTH = 5


def exercise_names(catalog: Catalog) -> Iterator[tuple[str, Loaded[Any], Path]]:
    """Every name and other name of every exercise, with where it stands."""
    for exercise in catalog.exercises.values():
        yield exercise.data.name, exercise, ("name",)
        for index, name in enumerate(exercise.data.also_called):
            yield name, exercise, ("also_called", index)


def muscle_names(catalog: Catalog) -> Iterator[tuple[str, str]]:
    """Every name of every muscle and part, everyday ones too, with its reference; names of whole muscles last, as they are meant first."""
    muscles = catalog.muscles.values()
    for muscle in muscles:
        for id, part in muscle.data.parts.items():
            for name in (part.name, part.everyday, *part.also_called):
                yield name, f"{muscle.id}/{id}"
    for muscle in muscles:
        for name in (muscle.data.name, muscle.data.everyday, *muscle.data.also_called):
            yield name, muscle.id


def plain(name: str) -> str:
    """The name without capitals, hyphens and points."""
    return re.sub(r"[\W_]+", " ", name.casefold()).strip()


def blurred(name: str) -> Iterator[str]:
    """Forms that two names share when they differ by spacing, word order, a plural or one mistyped letter.

    Siblings differ by a whole word (seated and standing, half and back), so they
    share none. Words with digits are counted, not mistyped.
    """
    yield plain(name).replace(" ", "")
    words = sorted(
        word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
        for word in plain(name).split()
    )
    yield " ".join(words)
    for place, word in enumerate(words):
        if len(word) >= TYPO_LENGTH and word.isalpha():
            # A letter too many, exchanged or swapped with its neighbour leaves a common remainder.
            for remainder in (word, *(word[:gap] + word[gap + 1 :] for gap in range(len(word)))):
                yield " ".join(sorted([*words[:place], f"{remainder}~", *words[place + 1 :]]))


def term_names(vocabulary: Vocabulary) -> Iterator[tuple[str, str, str, Path]]:
    """Every name and other name in the closed lists: the list, the word's id, the name, and where it stands below the word."""
    for kind in type(vocabulary).model_fields:
        terms = getattr(vocabulary, kind)
        for id, term in terms.items() if isinstance(terms, dict) else ():
            if hasattr(term, "name"):  # a question has none
                yield kind, id, term.name, ("name",)
            for index, name in enumerate(getattr(term, "also_called", ())):
                yield kind, id, name, ("also_called", index)
