"""The engine's own words."""

import pytest

from build_tools.evidence.terms import LEVELS, Directions, RatioInterval


@pytest.mark.parametrize(
    "numbers",
    [(1, 1.1, 1.2), (1, 0.8, 0.9), (0, 0, 1), (1, 0.5, float("inf")), (float("nan"), 0.5, 2)],
)
def test_an_impossible_estimate_is_refused(numbers):
    with pytest.raises(ValueError, match="0 < low <= ratio <= high"):
        RatioInterval(*numbers)


def test_directions_count_and_tell():
    told = Directions(2, 1, 3, mixed=1)
    assert told.total == 7 and str(told) == "2 more, 1 less, 3 no difference, 1 different ways"
    assert str(Directions(1)) == "1 more, 0 less, 0 no difference"


def test_levels_are_grades_from_the_lowest():
    assert LEVELS == ("very low", "low", "moderate", "high")
