"""What a step from a printed number to a log ratio knows: people, and correlations under the settings."""

from __future__ import annotations

import pytest
from catalogs import read_study, result, study

VALUES = {"a": {"mean": 50.0, "n": 9}, "b": {"mean": 40.0}}


@pytest.mark.parametrize(
    ("more", "people"),
    [
        # those of the number, of the arm, of the whole study that did both
        ({"n": 12}, (9, 12)),
        ({"n": 24, "sizes": {"a": 11, "b": 13}, "same": False}, (9, 13)),
        ({"n": 24, "same": False}, (9, None)),
    ],
)
def test_how_many_people_a_number_rests_on(more, people):
    reading = read_study(study([result(VALUES)], **more))
    assert (reading.people("a"), reading.people("b")) == people


def test_correlations_are_those_of_outcome_and_measure():
    reading = read_study(study([result(VALUES)]), arms=0.4)
    assert reading.correlation("arms") == 0.4 and reading.correlation("parts") == 0.5
