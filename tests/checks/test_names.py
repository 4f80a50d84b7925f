"""Names that are told apart, and slips of the pen that are found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.checks.names import TYPO_LENGTH, blurred


def alike(first: str, second: str) -> bool:
    """Whether the rule on near names would pair the two."""
    return bool(set(blurred(first)) & set(blurred(second)))


# Different exercises of the trade whose names differ by little.
@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Seated leg curl", "Standing leg curl"),
        ("Half squat", "Back squat"),
        ("Front squat", "Back squat"),
        ("Leg curl", "Leg press"),
        ("High pull", "Thigh pull"),
        ("Bent-over row", "Bent-over raise"),
        ("Incline press", "Decline press"),
        ("Step-up", "Sit-up"),
        ("Chin-up", "Pull-up"),
        ("Lunge", "Side lunge"),
        ("90 degree curl", "45 degree curl"),
        ("Bench press", "Bench press with band"),
        ("Straight-knee bridge", "Bent-knee bridge"),
        ("Prone leg curl", "Single-leg prone leg curl"),
        ("Press", "Presses on knees"),
    ],
)
def test_true_siblings_are_told_apart(first: str, second: str) -> None:
    assert not alike(first, second)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Seated leg curl", "Seated leg curls"),
        ("Seated leg curl", "Leg curl, seated"),
        ("Seated leg curl", "Seated legcurl"),
        ("Romanian deadlift", "Romanian dead-lift"),
        ("Romanian deadlift", "Romanain deadlift"),
        ("Romanian deadlift", "Romnian deadlift"),
        ("Nordic curl", "Nordick curl"),
        ("seated-leg-curl", "seatad-leg-curl"),
    ],
)
def test_slips_are_found(first: str, second: str) -> None:
    assert alike(first, second)


@given(
    st.lists(
        st.text("abcdefghijklmnopqrstuvwxyz", min_size=TYPO_LENGTH + 2, max_size=9),
        min_size=1,
        max_size=3,
    ),
    st.data(),
)
def test_any_dropped_letter_is_found(words: list[str], data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(words) - 1))
    gap = data.draw(
        st.integers(0, len(words[place]) - 3)
    )  # not at the end, where a plural may hide it
    slipped = [*words[:place], words[place][:gap] + words[place][gap + 1 :], *words[place + 1 :]]
    assert alike(" ".join(words), " ".join(slipped))
