"""Inconsistency: opposite sides, and a spread that chance does not give. The shares and the p are conventions of our own."""

from dataclasses import replace

import pytest
from certainty_cases import TRIAL, body, charged, charges, rules

from build_tools.evidence.certainty.inconsistency import CONTRARY_SERIOUS, HETEROGENEITY_P
from build_tools.evidence.certainty.rating import certainty


def samples(*clear):
    return tuple(replace(TRIAL, study=str(n), clear=side) for n, side in enumerate(clear))


@pytest.mark.parametrize(
    ("clear", "side", "levels"),
    [
        ((1, 1, 1), 1, 0),
        ((1, 0, 0), 1, 0),  # no difference is not the other side
        ((1, 1, -1), 1, 1),  # a third
        ((1, 1, 1, -1), 1, 0),
        ((1, -1), 1, 1),
        ((1, -1, -1), 1, 2),
        ((1, 1, -1), -1, 2),
        ((-1, -1), -1, 0),
    ],
)
def test_samples_that_clearly_show_the_other_side(clear, side, levels):
    rated = certainty(body(*samples(*clear), side=side))
    assert charges(rated, "inconsistency") == levels
    contrary = sum(c == -side for c in clear)
    assert ("inconsistency-contrary" in rules(rated)) == (
        contrary > 0
    ) and CONTRARY_SERIOUS == 1 / 3


@pytest.mark.parametrize(
    ("p", "spread", "levels"),
    [
        (0.01, 0.2, 1),
        (HETEROGENEITY_P, 0.2, 0),
        (0.5, 0.2, 0),
        (0.01, 0.05, 0),
        (None, 0.2, 0),
        (0.01, None, 0),
    ],
)
def test_a_spread_beyond_chance_and_beyond_what_matters(p, spread, levels):
    """0.0953 is the log of the margin of 1.1: great consistency is not needed where all of it counts as alike."""
    assert charges(certainty(body(heterogeneity_p=p, spread=spread)), "inconsistency") == levels


def test_signs_of_one_cause_are_charged_once():
    both = certainty(body(*samples(1, -1, -1), heterogeneity_p=0.001, spread=0.3))
    assert (
        charged(both, "inconsistency") == {"inconsistency-contrary"}
        and charges(both, "inconsistency") == 2
    )
    assert "inconsistency-once" in rules(both)


def test_a_single_sample_cannot_be_inconsistent():
    rated = certainty(body(replace(TRIAL, n=500, clear=-1), heterogeneity_p=0.001, spread=0.5))
    assert "inconsistency-single" in rules(rated) and rated.level == "high"


def test_samples_that_agree_cost_nothing():
    assert "inconsistency-none" in rules(certainty(body()))
