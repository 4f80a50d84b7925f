"""Reports without a spread against scipy's adaptive quadrature, and what they may and may not do to an answer.

With the engine's twelve standard errors taken for given, its own quadrature (24 panels of the effect, panels of the spread
between studies four times as far out each) is held to 1e-4 on chances; most cases reach 1e-7. Against the continuous
(truncated) lognormal that ``BorrowedSpread`` stands for, twelve points are held to 6e-3.
"""

from __future__ import annotations

from math import exp, inf, log

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import interpolate, stats

from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.network import Network
from build_tools.evidence.model.nodes import BorrowedSpread
from build_tools.evidence.model.posterior import Mixture, interval
from build_tools.evidence.model.reports import PairReport, tau_scale, weigh

GROWTH, ACTIVATION = (0.025, 0.06, BorrowedSpread(0.02, 0.4)), (0.2, 0.6, BorrowedSpread(0.12, 0.6))
T = 2.2


def report(y=None, sign=None, spread=ACTIVATION[2], critical=T, study="r") -> PairReport:
    return PairReport(study, y, sign, critical, spread)


def block(y: float, se: float, df: float | None = None) -> Block:
    return Block("n", ("b", "a"), np.array([y]), np.array([[se**2]]), df)


def bounds(told: PairReport) -> tuple[float, float]:
    """Standard errors that a number and its test leave possible."""
    if told.y is None or told.sign is None or (told.sign and told.sign * told.y <= 0):
        return 0.0, inf
    bound = abs(told.y) / told.critical
    return (0.0, bound) if told.sign else (bound, inf)


def chances(reports, scale, effect, at, network=None, points=True):
    """P(less than each of ``at``) by scipy: over the effect on a fine grid, the spread between studies and each standard error."""
    d = np.linspace(-1, 1, 2001) * (
        12 * effect if network is None else 12 * (network[1] + scale) + abs(network[0])
    )
    told = np.zeros_like(d)
    pieces = np.array([0.0, 0.05, 0.25, 1, 2.5, 8.5]) * scale
    for low, high in zip(pieces, pieces[1:], strict=False):
        x, w = np.polynomial.legendre.leggauss(24)
        for tau, weight in zip((x + 1) / 2 * (high - low) + low, w * (high - low) / 2, strict=True):
            like = np.full_like(d, float(stats.halfnorm.pdf(tau, scale=scale)) * weight)
            for r in reports:
                like *= _over_errors(r, d, tau, points)
            if network:
                like *= stats.norm.pdf(d, network[0], np.hypot(network[1], tau))
            elif all(r.y is None for r in reports):
                like *= stats.norm.pdf(d, 0, effect)
            told += like
    whole = interpolate.CubicSpline(d, told).antiderivative()
    return [float((whole(x) - whole(d[0])) / (whole(d[-1]) - whole(d[0]))) for x in at]


def _over_errors(r: PairReport, d: np.ndarray, tau: float, points: bool) -> np.ndarray:
    if points:
        errors, weights = r.errors, np.full(len(r.errors), 1 / len(r.errors))
    else:
        low, high = bounds(r)
        ends = [
            stats.norm.cdf(log(e / r.spread.middle) / r.spread.factor)
            if 0 < e < inf
            else float(e > 0)
            for e in (low, high)
        ]
        x, w = np.polynomial.legendre.leggauss(60)
        shares = (x + 1) / 2 * (ends[1] - ends[0]) + ends[0]
        errors, weights = r.spread.middle * np.exp(r.spread.factor * stats.norm.ppf(shares)), w / 2
    total = np.hypot(errors, tau)[:, None]
    if r.y is not None:
        like = stats.norm.pdf(r.y, d, total)
    else:
        far = r.critical * errors[:, None]
        z = stats.norm(d, total)
        like = (
            z.sf(far) if r.sign == 1 else z.cdf(-far) if r.sign == -1 else z.cdf(far) - z.cdf(-far)
        )
    return weights @ like


CASES = {
    "a null": [report(sign=0)],
    "significant": [report(sign=1)],
    "a number and significant": [report(y=0.5, sign=1)],
    "a number and null": [report(y=0.1, sign=0)],
    "a number, untested": [report(y=0.3)],
    "a null beside a significant": [report(sign=1), report(sign=0, study="s")],
    "three of each kind": [
        report(y=0.4, sign=1),
        report(sign=0, study="s"),
        report(y=0.1, study="t"),
    ],
}


@pytest.mark.parametrize("told", CASES.values(), ids=CASES)
@pytest.mark.parametrize("beside", [None, (0.2, 0.1)], ids=["alone", "beside a spread"])
@pytest.mark.parametrize("kind", [GROWTH, ACTIVATION], ids=["growth", "activation"])
def test_against_quadrature(told, beside, kind):
    scale, effect, spread = kind
    shrink = spread.middle / ACTIVATION[2].middle
    told = [PairReport(r.study, r.y and r.y * shrink, r.sign, r.critical, spread) for r in told]
    network = tau = None
    if beside:
        beside = (beside[0] * shrink, beside[1] * shrink)
        made = Network([block(*beside)], scale)
        network, tau = made.posterior("a", "b"), made.tau
    found = weigh(network, tau, told, scale, effect)
    at = [found.mean + k * found.sd for k in (-2, -1, 0, 0.5, 1.96)]
    same = chances(told, scale, effect, at, beside)
    assert [found.below(x) for x in at] == pytest.approx(same, abs=1e-4)
    continuous = chances(told, scale, effect, at, beside, points=False)
    assert [found.below(x) for x in at] == pytest.approx(continuous, abs=6e-3)


def test_a_density_holds_one_and_its_interval_holds_what_it_says():
    found = weigh(None, None, [report(sign=0)], *ACTIVATION[:2])
    low, high = interval(found)
    assert (found.below(low), found.below(high)) == pytest.approx((0.025, 0.975), abs=1e-9)
    assert found.below(-50) == 0 and found.below(50) == 1


def test_one_number_is_exact():
    """A single number is a mixture of normals: mean and variance by hand over the points."""
    told = report(y=0.3)
    found = weigh(None, None, [told], *ACTIVATION[:2])
    assert isinstance(found, Mixture) and found.mean == pytest.approx(0.3)
    # E(tau^2) of the half-normal is scale^2.
    assert found.sd**2 == pytest.approx(np.mean(told.errors**2) + 0.2**2, rel=1e-6)


def test_without_reports_the_network_stays_as_it_is():
    made = Network([block(0.2, 0.1)], 0.2)
    found = made.posterior("a", "b")
    assert weigh(found, made.tau, [], 0.2, 0.6) is found


# --- what reports may do ----------------------------------------------------------------------------------------------

numbers = st.builds(lambda y, se: (y, se), st.floats(-0.5, 0.5), st.floats(0.03, 0.3))
kinds = st.sampled_from([GROWTH, ACTIVATION])
few = settings(max_examples=40, deadline=None)


def weighed(network, reports, scale, effect):
    made = Network([block(*network)], scale)
    return weigh(made.posterior("a", "b"), made.tau, reports, scale, effect)


@few
@given(numbers, st.floats(0.3, 3))
def test_a_null_pulls_towards_no_difference(network, size):
    scale, effect, spread = ACTIVATION
    plain, pulled = (
        weighed(network, [], scale, effect),
        weighed(
            network,
            [report(sign=0, spread=BorrowedSpread(size * spread.middle, spread.factor))],
            scale,
            effect,
        ),
    )
    assert abs(pulled.mean) <= abs(plain.mean) + 1e-9
    assert plain.mean * pulled.mean >= -1e-12, "and never past it"


@few
@given(numbers, st.floats(0.3, 3), st.sampled_from([1, -1]))
def test_a_significant_report_never_pulls_away_from_its_side(network, size, side):
    scale, effect, spread = ACTIVATION
    plain, pulled = (
        weighed(network, [], scale, effect),
        weighed(
            network,
            [report(sign=side, spread=BorrowedSpread(size * spread.middle, spread.factor))],
            scale,
            effect,
        ),
    )
    assert side * (pulled.mean - plain.mean) >= -1e-9
    for x in (-0.2, 0.0, 0.1):
        assert side * (pulled.below(x) - plain.below(x)) <= 1e-9


@few
@given(
    st.lists(
        st.tuples(st.sampled_from([None, 0.05, 0.3]), st.sampled_from([1, 0, -1, None])).filter(
            lambda r: r != (None, None)
        ),
        min_size=1,
        max_size=4,
    ),
    st.randoms(),
)
def test_the_other_side_mirrors_and_order_changes_nothing(told, random):
    reports = [report(y=y, sign=sign, study=str(n)) for n, (y, sign) in enumerate(told)]
    plain = weigh(None, None, reports, *ACTIVATION[:2])
    turned = weigh(None, None, [r.mirrored() for r in reports], *ACTIVATION[:2])
    assert turned.mean == pytest.approx(-plain.mean, abs=1e-9) and turned.sd == pytest.approx(
        plain.sd, rel=1e-9
    )
    assert plain.mirrored().below(0.1) == pytest.approx(1 - plain.below(-0.1), abs=1e-9)
    again = weigh(None, None, random.sample(reports, len(reports)), *ACTIVATION[:2])
    assert (again.mean, again.sd) == (plain.mean, plain.sd)


def test_a_null_and_a_significant_report_enter_alike():
    """Selection by significance: of equal studies of no difference, one in forty is significant either way; the rest pull back."""
    alone = weigh(None, None, [report(sign=1)], *ACTIVATION[:2])
    among = weigh(
        None,
        None,
        [report(sign=1), *(report(sign=0, study=str(n)) for n in range(5))],
        *ACTIVATION[:2],
    )
    assert 0 < among.mean < alone.mean / 3 and 1 - among.below(0) < 1 - alone.below(0)


@pytest.mark.parametrize(
    ("told", "low", "high"),
    [
        (report(y=0.5, sign=1), 0, 0.5 / T),
        (report(y=0.5, sign=0), 0.5 / T, inf),
        (report(y=-0.5, sign=-1), 0, 0.5 / T),
        (report(y=0.5, sign=-1), 0, inf),
        (report(y=0.5), 0, inf),
        (report(sign=1), 0, inf),
    ],
)
def test_a_test_bounds_the_standard_error(told, low, high):
    """What is significant cannot have a wider one than its number over the critical t, what is not no narrower one."""
    assert (told.errors > low).all() and (told.errors < high).all()


@pytest.mark.parametrize(
    ("told", "widest"),
    [
        (report(y=0.5, sign=1), 0.5 / T),
        (report(y=-0.5, sign=-1), 0.5 / T),
        (report(y=0.5, sign=-1), None),
        (report(y=0.5, sign=0), None),
        (report(y=0.5), None),
        (report(sign=1), None),
    ],
)
def test_the_widest_that_a_significant_number_can_be(told, widest):
    assert told.widest == (widest and pytest.approx(widest))


def test_a_bound_that_the_catalog_has_never_seen_is_kept_all_the_same():
    """A number so small that its significance asks for a far smaller spread than any borrowed: the bound itself."""
    assert report(y=1e-9, sign=1).errors == pytest.approx([1e-9 / T])
    assert report(y=80.0, sign=0).errors == pytest.approx([80 / T])


def test_the_scale_of_the_spreads_is_their_mean_square():
    assert tau_scale(np.array([0.0, 0.3]), np.array([1.0, 3.0])) == pytest.approx(
        (0.75 * 0.09) ** 0.5
    )
    assert exp(
        report(sign=1).log_likelihood(np.array([9.0]), np.array([0.0]))[0, 0]
    ) == pytest.approx(1)
    assert np.isfinite(report(sign=1).log_likelihood(np.array([-99.0]), np.array([0.0]))).all()
