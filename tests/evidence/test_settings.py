"""The handbook's conventions as the numbers the engine works with."""

from __future__ import annotations

from dataclasses import replace

import pytest
from catalogs import correlated, of, result, study

from build_tools.evidence.settings import settings

BASE = of({"one": study([result({"a": {"mean": 1}})])})


def test_correlations_are_those_of_the_measure():
    """Of two limbs, thickness and MRI have their own (``conventions.correlations.arms``)."""
    base = settings(BASE)
    other = base.correlations.arms[0].model_copy(
        update={"measures": ["mri-volume"], "value": 0.9, "range": [0, 0.95]}
    )
    arms = [*base.correlations.arms, other]
    fixed = replace(base, correlations=base.correlations.model_copy(update={"arms": arms}))
    assert fixed.correlation("arms", "growth", "mri-volume") == 0.9
    usual = base.correlations.arms[0].value
    assert fixed.correlation("arms", "growth", "ultrasound-thickness") == usual
    moved = [
        s.correlation("arms", "growth", "mri-volume")
        for s in fixed.variations()
        if s.moved[0] == "arms"
    ]
    assert moved == [0, 0.95]
    assert correlated(fixed, "arms", 0.4).correlation("arms", "growth", "mri-volume") == 0.4


def test_each_variation_moves_one_kind_to_one_end_and_nothing_else():
    base = settings(BASE)
    variations = base.variations()
    assert len({s.moved for s in variations}) == len(variations) == 8
    for moved in variations:
        for kind in ("before_after", "arms", "parts", "sites"):
            same = moved.correlation(kind, "growth", "mri-volume") == base.correlation(
                kind, "growth", "mri-volume"
            )
            assert same or kind == moved.moved[0]


@pytest.mark.parametrize("factor", [0.5, 2.0])
def test_another_expectation_of_the_spread_between_studies(factor):
    base = settings(BASE)
    moved = base.with_prior(factor)
    assert moved.spreads == {k: factor * v for k, v in base.spreads.items()}
    assert replace(moved, spreads=base.spreads) == base


def test_conventions_by_outcome():
    base = settings(BASE)
    assert (base.margins["growth"], base.margins["activation"]) == (1.02, 1.1)
    assert base.spreads["growth"] == 0.03 and base.effects["activation"] == 0.6
    assert base.margin_length == 0.1 and base.slope == (0.05, 0.05)
    # Length and architecture are never pooled, so any margin serves.
    assert set(base.margins) == {"growth", "activation", "strength", "length", "architecture"}
    assert base.conversion("volume") is None


def test_a_declared_conversion_is_the_exponent_that_makes_an_area():
    assert replace(settings(BASE), conversions={"thickness": 2.0}).conversion("thickness") == 2.0
