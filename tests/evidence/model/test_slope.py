"""Growth on muscle length: against a Bayesian weighted regression written independently on a grid, and a closed form."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from networks import whole
from scipy import stats
from statistics_reference import same

from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.network import widening
from build_tools.evidence.model.slope import fit_slope

LENGTHS = {"a": 0.8, "b": 0.3, "c": 0.5, "d": 0.55}
PRIOR = (0.05, 0.05)
PEOPLE = {"s1": 10, "s2": 20, "s3": 30}
SCALE = 0.025


def block(study, treatments, y, v, df=None) -> Block:
    return Block(study, tuple(treatments), np.array(y, float), np.array(v, float), df)


THREE = [
    (block("s1", "ba", [0.06], [[0.02**2]]), 1),
    (block("s2", "cab", [0.03, -0.02], [[0.03**2, 0.0004], [0.0004, 0.025**2]]), 1),
    (block("s3", "cd", [0.01], [[0.01**2]]), 1),
]


def by_grid(blocks, lengths, scale, prior):
    """Chance of each slope by brute force: normal likelihood with the whole covariance, half-normal on the scatter, on a grid."""
    treatments = sorted({t for b in blocks for t in b.treatments})
    y, design, v, p = whole(blocks)
    x = design @ (np.array([lengths[t] for t in treatments[1:]]) - lengths[treatments[0]])
    # Every contrast is a difference, so that the first treatment's length drops out.
    slopes = np.linspace(prior[0] - 8 * prior[1], prior[0] + 8 * prior[1], 1601)
    taus = np.linspace(0, 8 * scale, 801)
    total = np.zeros_like(slopes)
    for tau, step in zip(
        taus,
        np.full(len(taus), taus[1]) * np.where((taus == 0) | (taus == taus[-1]), 0.5, 1),
        strict=True,
    ):
        w = np.linalg.inv(v + tau**2 * p)
        off = y[:, None] - x[:, None] * slopes
        logs = (np.linalg.slogdet(w)[1] - np.einsum("ns,nm,ms->s", off, w, off)) / 2
        total += np.exp(logs) * stats.halfnorm.pdf(tau, scale=scale) * step
    total *= stats.norm.pdf(slopes, *prior)
    total /= np.trapezoid(total, slopes)
    return slopes, total


@pytest.mark.parametrize(
    "samples", [THREE[:1], THREE[1:2], THREE], ids=["one", "three arms", "all"]
)
def test_against_a_grid(samples):
    found = fit_slope(samples, LENGTHS, SCALE, PRIOR, PEOPLE)
    assert found is not None
    slopes, density = by_grid([b for b, _ in samples], LENGTHS, SCALE, PRIOR)
    chance = np.concatenate([[0], np.cumsum((density[1:] + density[:-1]) / 2 * np.diff(slopes))])
    assert found.mean == pytest.approx(np.trapezoid(slopes * density, slopes), abs=1e-5)
    assert [found.low, found.high] == pytest.approx(
        np.interp([0.025, 0.975], chance, slopes), abs=1e-4
    )
    assert found.more == pytest.approx(1 - np.interp(0, slopes, chance), abs=1e-4)


def test_without_scatter_it_is_the_normal_regression_of_textbooks():
    """Conjugate: precisions add, means weigh by them."""
    found = fit_slope(THREE[:1], LENGTHS, 1e-9, PRIOR, PEOPLE)
    x, se = 0.5, 0.02
    precision = 1 / PRIOR[1] ** 2 + (x / se) ** 2
    mean = (PRIOR[0] / PRIOR[1] ** 2 + x * 0.06 / se**2) / precision
    half = stats.norm.ppf(0.975) / np.sqrt(precision)
    same([found.mean, found.low, found.high], [mean, mean - half, mean + half], rel=1e-6)
    assert found.more == pytest.approx(stats.norm.sf(0, mean, precision**-0.5), rel=1e-6)


def test_many_parts_of_the_same_people_are_not_many_studies():
    """Two parts that say the same, each with its weight halved, weigh as one."""
    one = fit_slope(THREE[:1], LENGTHS, 1e-9, PRIOR, PEOPLE)
    both = [(THREE[0][0], 2), (THREE[0][0].renamed(("b2", "a2")), 2)]
    two = fit_slope(both, LENGTHS | {"a2": 0.8, "b2": 0.3}, 1e-9, PRIOR, PEOPLE)
    assert (two.mean, two.low) == pytest.approx((one.mean, one.low)) and two.people == 10


def test_a_spread_estimated_from_few_people_is_widened():
    few = fit_slope([(replace(THREE[0][0], df=4), 1)], LENGTHS, 1e-9, PRIOR, PEOPLE)
    wide = replace(THREE[0][0], v=THREE[0][0].v * widening(4) ** 2)
    assert few.mean == pytest.approx(fit_slope([(wide, 1)], LENGTHS, 1e-9, PRIOR, PEOPLE).mean)


def test_what_has_no_length_is_left_out_and_what_has_none_that_differ_says_nothing():
    known = {t: x for t, x in LENGTHS.items() if t != "c"}
    found = fit_slope(THREE, known, SCALE, PRIOR, PEOPLE)
    assert found.studies == ("s1", "s2") and found.people == 30
    # Of the three arms the two that are left: their contrast and its variance, by hand.
    y, v = -0.02 - 0.03, 0.025**2 + 0.03**2 - 2 * 0.0004
    pair = block("s2", "ab", [y], [[v]])
    assert found.mean == pytest.approx(
        fit_slope([THREE[0], (pair, 1)], known, SCALE, PRIOR, PEOPLE).mean
    )
    assert fit_slope(THREE, {"a": 0.8}, SCALE, PRIOR, PEOPLE) is None
    assert fit_slope(THREE[:1], {"a": 0.5, "b": 0.5}, SCALE, PRIOR, PEOPLE) is None
    assert fit_slope([], LENGTHS, SCALE, PRIOR, PEOPLE) is None


def test_it_tells_what_it_rests_on():
    found = fit_slope(THREE, LENGTHS, SCALE, PRIOR, PEOPLE)
    assert (found.studies, found.people, found.prior) == (("s1", "s2", "s3"), 60, PRIOR)
    assert found.differences == pytest.approx((0.05, 0.5))


def test_order_and_baseline_change_nothing():
    turned = [(block("s1", "ab", [-0.06], [[0.02**2]]), 1), THREE[2], THREE[1]]
    plain = fit_slope(THREE, LENGTHS, SCALE, PRIOR, PEOPLE)
    other = fit_slope(turned, LENGTHS, SCALE, PRIOR, PEOPLE)
    assert (other.mean, other.low, other.more) == pytest.approx(
        (plain.mean, plain.low, plain.more), rel=1e-9
    )
