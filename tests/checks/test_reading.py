"""How hard a text is to read, against a published worked example."""

from __future__ import annotations

import pytest

from build_tools.checks.reading import grade, hardest_words, syllables

# Wikipedia, "Flesch-Kincaid readability tests" (read as a copy): this sentence has 13 words, 24 syllables and grade 11.3.
PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


def test_published_example() -> None:
    words = PLATYPUS.rstrip(".").split()
    assert (len(words), sum(map(syllables, words))) == (13, 24)
    assert grade([PLATYPUS]) == pytest.approx(11.3, abs=0.05)


def test_published_lower_end() -> None:
    # The same article's formula: a text of one-word sentences of one syllable has 0.39 + 11.8 - 15.59 = -3.40, its lowest score.
    assert grade(["Go. Sit. Stand.", "Pull"]) == pytest.approx(-3.40)


@pytest.mark.parametrize(
    ("word", "count"),
    [("licensed", 2), ("client’s", 2), ("CREATURE", 2), ("idea", 3), ("zyxve", 1), ("lantle", 2)],
)
def test_syllables(word: str, count: int) -> None:
    assert syllables(word) == count


def test_each_text_ends_a_sentence() -> None:
    assert grade(["Sit tall", "Stand up"]) == grade(["Sit tall. Stand up."])
    assert grade(["Sit tall, and 10 times up"]) == grade(["Sit tall and times up"]), (
        "numbers and commas do not count"
    )


def test_text_without_words_is_not_hard() -> None:
    assert grade([]) == grade(["3, 10."]) == float("-inf")


def test_hardest_words_come_first() -> None:
    assert hardest_words(["Stretch the posterior musculature", "again, gradually"], 3) == [
        "gradually",
        "musculature",
        "posterior",
    ]
    assert hardest_words(["Stand up together, gradually"], 1) == ["gradually"]
    assert hardest_words(["Sit tall again"], 3) == []
