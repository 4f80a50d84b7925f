"""What one more study would do, against simulated further studies (seeded). The idea is Roloff et al. 2013 (doi:10.1002/sim.5524)."""

from __future__ import annotations

from math import exp, log

import numpy as np
import pytest
from scipy import stats

from build_tools.evidence.model.change import MOST_PEOPLE, POWER, OutlookBasis, outlook
from build_tools.evidence.model.finding import LEANING, classify

ANSWERS = {
    "hinted growth": OutlookBasis(0.04, 0.03, 0.025, 0.1, log(1.02)),
    "found growth": OutlookBasis(0.06, 0.02, 0.02, 0.08, log(1.02)),
    "unclear activation": OutlookBasis(0.05, 0.2, 0.2, 0.45, log(1.1)),
    "hinted less": OutlookBasis(-0.3, 0.2, 0.15, 0.5, log(1.1)),
    "alike": OutlookBasis(0.001, 0.02, 0.01, 0.1, log(1.1)),
    "wide": OutlookBasis(0.4, 0.6, 0.3, 0.9, log(1.1)),
}
each = pytest.mark.parametrize("standing", ANSWERS.values(), ids=ANSWERS)


def said(mean: float, sd: float, margin: float):
    return classify(*(float(stats.norm.cdf(x, mean, sd)) for x in (-margin, 0.0, margin)))


@each
@pytest.mark.parametrize("people", [12, 40, 300])
def test_the_chances_are_those_of_simulated_studies(standing: OutlookBasis, people: int):
    """Truths from the answer, a study of each, and the answer after it: within four standard errors of the count."""
    dice, runs = np.random.default_rng(13), 200_000
    truth = dice.normal(standing.mean, standing.sd, runs)
    noise = standing.unit**2 / people + standing.spread**2
    y = truth + dice.normal(0, np.sqrt(noise), runs)
    weights = 1 / standing.sd**2, 1 / noise  # precision weighting, written anew
    means = (standing.mean * weights[0] + y * weights[1]) / sum(weights)
    sd = sum(weights) ** -0.5
    # The rules of ``finding`` for a normal distribution, in words: its interval, its middle and its likelier side.
    half, likely = stats.norm.ppf(0.975) * sd, stats.norm.cdf(np.abs(means) / sd)
    found = np.abs(means) > half
    alike = ~found & (np.abs(means) + half <= standing.margin)
    hinted = ~found & ~alike & (np.abs(means) > standing.margin) & (likely >= LEANING)
    counted = {
        ("found", "more"): (found & (means > 0)).sum(),
        ("found", "less"): (found & (means < 0)).sum(),
        ("hinted", "more"): (hinted & (means > 0)).sum(),
        ("hinted", "less"): (hinted & (means < 0)).sum(),
        ("alike", None): alike.sum(),
        ("unclear", None): (~found & ~alike & ~hinted).sum(),
    }
    chances = standing.chances(people)
    assert sum(chances.values()) == pytest.approx(1) and set(counted) == set(chances)
    for finding, chance in chances.items():
        off = 4 * max(np.sqrt(chance * (1 - chance) / runs), 1 / runs)
        assert counted[finding] / runs == pytest.approx(chance, abs=off), finding


@each
def test_an_update_is_that_of_precision_weighting(standing: OutlookBasis):
    for y in (-0.2, 0.0, 0.3):
        noise = standing.unit**2 / 20 + standing.spread**2
        weights = 1 / standing.sd**2, 1 / noise
        mean, sd = standing.updated(20, y)
        assert mean == pytest.approx((standing.mean * weights[0] + y * weights[1]) / sum(weights))
        assert sd == pytest.approx(sum(weights) ** -0.5)
    # Total variance: what the mean moves by and what is left make up today's.
    moved, left = standing.after(20)
    assert moved**2 + left**2 == pytest.approx(standing.sd**2)


@each
def test_the_fewest_people_who_settle_it(standing: OutlookBasis):
    """Of the sizes tried, the first that settles it in 8 of 10 cases: counted by simulation just at it and far below it."""
    people = outlook(standing, 20).people

    def settled(n: int) -> float:
        chances = standing.chances(n)
        return chances["found", "more"] + chances["found", "less"] + chances["alike", None]

    if people is None:
        assert settled(MOST_PEOPLE) < POWER
    else:
        assert settled(people) >= POWER and (people == 10 or settled(max(people // 2, 5)) < POWER)


@each
def test_the_fewest_further_studies_that_settle_it(standing: OutlookBasis):
    """Simulated: so many studies of 20 people each, all weighed; just enough settle it in 8 of 10 cases, one fewer does not."""
    more = outlook(standing, 20).more
    dice, runs = np.random.default_rng(7), 100_000
    truth = dice.normal(standing.mean, standing.sd, runs)

    def settled(k: int) -> float:
        noise = (standing.unit**2 / 20 + standing.spread**2) / k
        y = truth + dice.normal(0, np.sqrt(noise), runs)
        weights = 1 / standing.sd**2, 1 / noise
        means = (standing.mean * weights[0] + y * weights[1]) / sum(weights)
        half = stats.norm.ppf(0.975) * sum(weights) ** -0.5
        return float(((np.abs(means) > half) | (np.abs(means) + half <= standing.margin)).mean())

    if more is None:
        assert settled(20) < POWER + 0.01
    else:
        assert settled(more) > POWER - 0.01 and (more == 1 or settled(more - 1) < POWER + 0.01)


def test_what_studies_differ_by_no_single_study_settles():
    assert outlook(OutlookBasis(0.02, 0.3, 0.3, 0.4, log(1.1)), 20).people is None


@each
def test_the_chance_is_that_of_another_finding(standing: OutlookBasis):
    found = outlook(standing, 20)
    assert found.chance == pytest.approx(1 - standing.chances(20)[standing.now()])
    assert 0 <= found.chance <= 1 and found.same == 20


@each
def test_the_other_side_mirrors(standing: OutlookBasis):
    other = OutlookBasis(
        -standing.mean, standing.sd, standing.spread, standing.unit, standing.margin
    )
    one, two = outlook(standing, 20), outlook(other, 20)
    assert (one.chance, one.people) == pytest.approx((two.chance, two.people))
    turn = {"more": "less", "less": "more", None: None}
    forth = {(s.people, round(log(s.ratio), 9), s.finding, s.side) for s in one.studies}
    back = {(s.people, round(-log(s.ratio), 9) + 0.0, s.finding, turn[s.side]) for s in two.studies}
    assert {(p, y + 0.0, f, s) for p, y, f, s in forth} == back


@each
def test_the_table_says_what_the_updated_answer_is(standing: OutlookBasis):
    for further in outlook(standing, 20).studies:
        wanted = said(*standing.updated(further.people, log(further.ratio)), standing.margin)
        assert (further.finding, further.side) == wanted
    assert {s.people for s in outlook(standing, 20).studies} == {20, 80}
    assert exp(standing.mean) in [pytest.approx(s.ratio) for s in outlook(standing, 20).studies]
