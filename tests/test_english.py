"""Small pieces of English. The expected texts are plain English usage."""

import pytest

from build_tools.english import counted, listed, lower_first, upper_first


@pytest.mark.parametrize(
    ("words", "told"), [(["a"], "a"), (["a", "b"], "a and b"), (("a", "b", "c"), "a, b and c")]
)
def test_a_list_ends_with_and(words, told):
    assert listed(words) == told


@pytest.mark.parametrize(
    ("n", "one", "many", "told"),
    [
        (0, "error", None, "0 errors"),
        (1, "study", "studies", "1 study"),
        (2, "study", "studies", "2 studies"),
        (1200, "error", None, "1,200 errors"),
    ],
)
def test_a_count_agrees_with_its_noun(n, one, many, told):
    assert counted(n, one, many) == told


@pytest.mark.parametrize(
    ("text", "upper", "lower"),
    [
        ("The hips", "The hips", "the hips"),
        ("A physio", "A physio", "a physio"),
        ("EMG of the hips", "EMG of the hips", "EMG of the hips"),
        ("seated", "Seated", "seated"),
        ("90 degrees", "90 degrees", "90 degrees"),
        ("", "", ""),
    ],
)
def test_a_first_letter_changes_unless_it_is_an_abbreviation(text, upper, lower):
    assert (upper_first(text), lower_first(text)) == (upper, lower)
