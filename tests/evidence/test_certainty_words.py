"""Words for how sure and how large, against the pattern of ``grade_wording`` and ``grade_wording_matrix``."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statistics_reference import entry

from build_tools.evidence.certainty.rating import LEVELS
from build_tools.evidence.certainty.words import MEANING, Sizes, phrase, size

COVERS = {"grade_wording", "grade_wording_matrix", "grade_meaning"}

SIZES = Sizes(small=1.05, moderate=1.2, large=1.5)


def sentence(level, how_large):
    """The pieces put together in the pattern's order of words."""
    words = phrase(level, how_large)
    if words.opening:
        return f"{words.opening.capitalize()} A gives more or less X than B"
    if how_large == "trivial":
        return f"A and B {words.verb('differ', 'differ')} {words.degree} in X"
    return " ".join(f"A {words.verb('gives', 'give')} {words.degree} more X than B".split())


@pytest.mark.parametrize("level", ["high", "moderate", "low", "very low"])
@pytest.mark.parametrize("how_large", ["large", "moderate", "small", "trivial"])
def test_pieces_compose_to_the_pattern(level, how_large):
    row = entry("grade_wording_matrix")["expected"][level.replace(" ", "_")]
    assert sentence(level, how_large) == row.get("any", row.get(how_large))


@pytest.mark.parametrize(
    ("level", "verb"),
    [("high", "is"), ("moderate", "is probably"), ("low", "may be"), ("very low", "is")],
)
def test_forms_of_be_keep_their_order(level, verb):
    assert phrase(level, "moderate").verb("is", "be") == verb


def test_each_level_has_its_meaning():
    """grade_meaning: close, probably close, may be and likely different."""
    assert set(MEANING) == set(LEVELS)
    published = dict(
        part.split(": ")
        for part in entry("grade_meaning")["expected"]["rule"].rstrip(".").split(". ")
    )
    for level, key in (
        ("high", "very confident"),
        ("moderate", "probably close"),
        ("low", "may be"),
        ("very low", "likely"),
    ):
        assert key in published[level.capitalize()] and key in MEANING[level]


@pytest.mark.parametrize(
    ("ratio", "word"),
    [
        (1, "trivial"),
        (1.04, "trivial"),
        (0.97, "trivial"),
        (1.06, "small"),
        (1.19, "small"),
        (0.9, "small"),
        (1.21, "moderate"),
        (1.49, "moderate"),
        (1.51, "large"),
        (0.6, "large"),
    ],
)
def test_sizes(ratio, word):
    assert size(ratio, SIZES) == word


@given(st.floats(0.1, 10))
def test_a_ratio_and_its_inverse_are_as_large(ratio):
    def rank(x):
        return ["trivial", "small", "moderate", "large"].index(size(x, SIZES))

    assert rank(ratio) == rank(1 / ratio) <= rank(ratio**2)


@pytest.mark.parametrize("numbers", [(1, 1.2, 1.5), (1.2, 1.1, 1.5), (1.1, 1.2, 1.2)])
def test_sizes_must_rise_from_above_one(numbers):
    with pytest.raises(ValueError, match="rising ratios above 1"):
        Sizes(*numbers)
