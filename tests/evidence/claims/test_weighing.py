"""How one question is weighed: what a finding may be, the widest that a bound allows, and one more study."""

from math import exp, log, sqrt

import numpy as np
import pytest
from catalogs import A, B, of, result, study
from scipy import stats

from build_tools.evidence.claims.component import Component
from build_tools.evidence.claims.weighing import weigh_question
from build_tools.evidence.model.blocks import Block
from build_tools.evidence.model.nodes import BorrowedSpread
from build_tools.evidence.model.reports import PairReport
from build_tools.evidence.settings import settings
from build_tools.evidence.studies.samples import PooledTopic
from build_tools.evidence.terms import Question

SETTINGS = settings(of({"one": study([result({"a": {"mean": 1.0}})])}))
QUESTION = Question(A, B, "lantern/long-head", "activation")
SCALE = SETTINGS.spreads["activation"]
SPREAD = BorrowedSpread(0.12, 0.5)


def report(y=None, sign=None, study="r"):
    return PairReport(study, y, sign, 2.2, SPREAD)


def weighed(y=None, *reports, se=0.05, measured="part", samples=1, people=12):
    """A network of one sample (``y`` of A against B) or none, and reports."""
    connected = None
    if y is not None:
        block = Block("one", (B, A), np.array([y]), np.array([[se**2]]))
        connected = Component([block], {"one": people}, SCALE).connected(A, B)
    topic = PooledTopic(QUESTION.part, "activation", None, measured)
    told = {f"r{n}": r for n, r in enumerate(reports)}
    return weigh_question(QUESTION, topic, connected, told, SETTINGS, samples, people)


@pytest.mark.parametrize(
    ("measured", "finding"), [("part", "found"), ("together", "hinted"), ("whole", "hinted")]
)
def test_nothing_is_found_of_a_part_that_was_not_measured_by_itself(measured, finding):
    found = weighed(1.2, measured=measured)
    assert (found.finding, found.side, found.measured) == (finding, "more", measured)
    assert weighed(-1.2, measured=measured).side == "less"


def test_nothing_is_found_where_nobody_tested_the_two():
    """Two numbers without a spread or a test, however far apart, only lean."""
    assert weighed(None, report(y=2.0)).finding == "hinted"
    assert weighed(None, report(y=2.0), report(y=1.9)).finding == "hinted"
    assert weighed(None, report(y=2.0, sign=1)).finding == "found"


@pytest.mark.parametrize(
    ("reports", "sized", "interval"),
    [
        ((report(y=0.1),), True, True),
        ((report(sign=0),), False, True),  # a null leaves only so much open
        ((report(sign=1),), False, False),
        ((report(sign=1), report(sign=0)), False, False),
        ((report(sign=1), report(y=0.1, sign=0)), True, True),
    ],
)
def test_what_can_be_told_of_how_much(reports, sized, interval):
    found = weighed(None, *reports)
    assert (found.sized, found.has_interval, found.borrowed) == (sized, interval, True)
    assert not weighed(0.1, *reports).borrowed and weighed(0.1, *reports).has_interval


def test_what_is_known_leaves_out_reports_without_a_spread():
    alone, both = weighed(0.3), weighed(0.3, report(sign=0))
    assert alone.known is alone.weighed
    assert both.known.estimate == alone.weighed.estimate != both.weighed.estimate


def test_the_widest_that_a_bound_allows():
    """One number that a test found significant: at the bound itself its standard error is the number over the critical t."""
    found = weighed(None, report(y=0.5, sign=1))
    # The half-normal prior on the spread between studies, integrated by scipy.
    tau = stats.halfnorm(scale=SCALE)

    def below(x):
        return tau.expect(
            lambda t: stats.norm.cdf(x, 0.5, np.hypot(0.5 / 2.2, t)), lb=0, ub=9 * SCALE
        )

    low, high = log(found.known.estimate.low), log(found.known.estimate.high)
    assert (below(low), below(high)) == pytest.approx((0.025, 0.975), abs=1e-6)
    assert low < log(found.weighed.estimate.low)


@pytest.mark.parametrize(
    "reports",
    [(report(y=0.5, sign=-1),), (report(y=0.5, sign=0),), (report(y=0.5),), (report(sign=1),)],
)
def test_no_other_report_has_such_a_bound(reports):
    found = weighed(None, *reports)
    assert found.known is None


def test_several_bounds_are_weighed_together_and_what_has_none_is_left_out():
    """Each at its own bound; a second that agrees narrows what is known, a null beside them only the answer."""
    one, two = (
        weighed(None, report(y=0.5, sign=1)),
        weighed(None, report(y=0.5, sign=1), report(y=0.5, sign=1)),
    )
    assert one.known.estimate.low < two.known.estimate.low
    beside = weighed(None, report(y=0.5, sign=1), report(sign=0))
    assert beside.known.estimate == one.known.estimate and beside.weighed.estimate.ratio < 1.6


def test_the_other_side():
    found = weighed(0.4, report(y=0.2, sign=1), report(sign=0))
    back = found.mirrored()
    e, m = found.weighed.estimate, back.weighed.estimate
    assert (1 / m.ratio, 1 / m.high, 1 / m.low) == pytest.approx((e.ratio, e.low, e.high))
    assert back.finding == found.finding and back.side == {"more": "less", "less": "more"}.get(
        found.side
    )
    assert [r.sign for r in back.reports.values()] == [
        -1,
        0,
    ] and back.basis.mean == -found.basis.mean
    assert back.outlook.chance == pytest.approx(found.outlook.chance)


def test_one_more_study_is_as_precise_for_its_people_as_those_there_are():
    """One sample of 12, standard error 0.05: sampling leaves that much of its variance when the spread is taken out of it."""
    basis = weighed(0.3, se=0.3).basis
    assert basis.unit == pytest.approx(0.3 * sqrt(12), rel=0.01)
    assert exp(basis.margin) == pytest.approx(SETTINGS.margins["activation"])
    assert basis.spread == pytest.approx(SCALE, rel=1e-6)
    # Where a report borrows less than the answer's width tells, that is what another study would have.
    assert weighed(None, report(sign=1)).basis.unit <= SPREAD.middle * sqrt(12) * (1 + 1e-9)
