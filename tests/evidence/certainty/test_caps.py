"""Caps: what was read, and directions without a number. Conventions of our own."""

from dataclasses import replace
from typing import get_args

import pytest
from certainty_cases import TRIAL, body, each, rules

from build_tools.evidence.certainty.body import Read
from build_tools.evidence.certainty.caps import READ_AT_MOST, caps
from build_tools.evidence.certainty.rating import certainty


@pytest.mark.parametrize(
    ("read", "level"),
    [
        ("full text", "high"),
        ("abstract", "moderate"),
        ("part of abstract", "low"),
        ("record", "low"),
        ("memory", "very low"),
    ],
)
def test_what_was_read_caps_the_level(read, level):
    rated = certainty(body(*each(read=read)))
    assert rated.level == level and ("cap-read" in rules(rated)) == (read != "full text")
    assert set(READ_AT_MOST) == set(get_args(Read))


@pytest.mark.parametrize(
    ("n", "read", "level"),
    [(130, "abstract", "high"), (140, "abstract", "moderate"), (140, "memory", "very low")],
)
def test_most_of_the_people_must_have_been_read_of(n, read, level):
    assert certainty(body(TRIAL, replace(TRIAL, study="b", n=n, read=read))).level == level


def test_directions_alone_are_low_at_most():
    directions = body(*each(spread="significant"), estimate=None)
    assert [(cap.rule, cap.at_most) for cap in caps(directions)] == [("cap-directions", "low")]
    assert certainty(directions).level == "low"


def test_caps_limit_and_do_not_add():
    assert certainty(body(*each(read="abstract", risk_of_bias=None))).level == "moderate"
    both = body(*each(read="part of abstract", spread="significant"), estimate=None)
    assert len(caps(both)) == 2 and certainty(both).level == "low"


def test_the_reason_counts_where_numbers_were_read():
    [cap] = caps(
        body(
            TRIAL,
            replace(TRIAL, study="b", read="memory"),
            replace(TRIAL, study="c", read="memory"),
        )
    )
    assert cap.reason == "The numbers of 3 samples were read: 1 in the full text, 2 from memory."
