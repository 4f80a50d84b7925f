"""Ratios in words."""

import pytest

from build_tools.evidence.wording.amounts import amount, people, percent, samples, span


@pytest.mark.parametrize(
    ("ratio", "words"),
    [
        (1, "no difference"),
        (1 - 1e-12, "no difference"),  # what is left of a sum of floating-point numbers
        (1.12, "12% more"),
        (0.9, "10% less"),
        (1.005, "0.5% more"),
        (0.0001, "100% less"),
        (1.0002, "under 0.1% more"),
        (1.995, "100% more"),
        (2.4, "2.4 times as much"),
        (30, "30 times as much"),
        (140, "140 times as much"),
    ],
)
def test_amount(ratio, words):
    assert amount(ratio) == words


def test_percent_leaves_the_direction_out():
    assert percent(1.05) == "5%" and percent(0.95) == "5%"


def test_span():
    assert span(0.97, 1.22) == "from 3% less to 22% more"


def test_counts():
    assert (samples(1), samples(2), people(1), people(12)) == (
        "1 sample",
        "2 samples",
        "1 person",
        "12 people",
    )
