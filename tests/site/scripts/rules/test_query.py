"""What a typed query can mean. Plurals and -er are those of English grammar (Quirk and others 1985, from memory); the folding of accents is
that of Unicode (``unicodedata``); how near two words are is checked against a plain edit distance."""

from __future__ import annotations

import pytest
import shipped_made
from hypothesis import given
from hypothesis import strategies as st
from script_rules import query

from build_tools.site.search.texts import words


@pytest.mark.parametrize(
    "alike",
    [
        ["squat", "squats", "squatting"],
        ["thrust", "thrusts", "thruster", "thrusters"],
        ["crush", "crusher", "crushers"],
        ["raise", "raises", "raiser", "raising"],
        ["press", "presses", "pressing"],
        ["fly", "flies", "flys", "flyes"],
        ["calf", "calves"],
        ["lunge", "lunges", "lunging"],
        ["carry", "carries", "carrying"],
        ["row", "rows", "rowing"],
        ["biceps", "bicep"],
        ["farmer", "farmers"],
        ["nordic", "nordics"],
    ],
)
def test_forms_of_a_word_have_one_stem(alike: list[str]) -> None:
    assert len({query.stem(word) for word in alike}) == 1


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("upper", "up"),
        ("lower", "low"),
        ("inner", "in"),
        ("calf", "cable"),
        ("soleus", "sole"),
        ("seat", "seated"),
        ("row", "raw"),
        ("pull", "pulley"),
    ],
)
def test_other_words_keep_apart(one: str, other: str) -> None:
    assert query.stem(one) != query.stem(other)


@pytest.mark.parametrize(
    "written",
    [
        ["skullcrusher", "skull crusher", "skull-crushers", "Skull Crusher"],
        ["push-up", "pushup", "push ups"],
        ["Farmer's walk", "farmers walk", "farmer’s walks"],
        ["lat pulldown", "lat pull-down"],
    ],
)
def test_joined_apart_and_hyphenated_are_one(written: list[str]) -> None:
    assert len({query.joined(query.asked(name)) for name in written}) == 1


def test_small_words_ask_for_nothing_unless_they_are_all() -> None:
    assert query.asked("calf raise on the leg press") == ["calf", "raise", "leg", "press"]
    assert query.asked("on the") == ["on", "the"]
    assert query.asked("  ") == []


def test_words_are_spelled_as_in_the_files() -> None:
    """The one thing that is done on both sides, for every name of the shipped catalog."""
    for exercise in shipped_made.catalog().exercises.values():
        for name in (exercise.data.name, *exercise.data.also_called):
            assert query.spelled(name) == list(words(name))
    assert query.spelled("Illera-Domínguez’s 45° ÜBUNG") == list(
        words("Illera-Domínguez’s 45° ÜBUNG")
    )


@given(st.text(alphabet="abcdefghij", min_size=4, max_size=9), st.data())
def test_two_letters_changed_about_are_found_again(word: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(word) - 2))
    turned = word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    assert turned == word or word in query.swapped(turned)


def test_what_is_known_counts_before_what_is_near() -> None:
    found = {"exact": [], "same": ["dumbbell"], "begun": [], "near": [["dumb", 2]]}
    assert query.meanings("db", found) == {"dumbbell": 0.15, "dumb": 1.0}
    assert query.meanings("row", {**found, "exact": ["rows"]}) == {"row": 0, "dumbbell": 0.15}


def test_short_words_hold_no_slip() -> None:
    """Row and bow, hip and dip: as ``TYPO_LENGTH`` of the catalog's own check of near names."""
    assert [query.slips(word) for word in ("row", "curl", "extension")] == [0, 1, 2]
