"""What a sample says of a pair without a spread of its own: a number, a bound on p, a bare direction."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from math import log
from statistics import fmean

from ...catalog.entries import Result, Study, Value
from ...catalog.load import Catalog
from ..effects.spread import t_from_p
from ..errors import EvidenceError
from ..model.reports import PairReport
from .arm_means import CHANGES, Unusable, factor, refuse_kind, refuse_near_zero
from .contrasts import ContrastSide, StudyContrast
from .measurement import LISTED
from .reading import people_of
from .unit_spreads import UnitSpreads, contributing

_SIGNS = {"more": 1, "less": -1, "neither": 0}
#: The level of a test that is told without one.
_ALPHA = 0.05


def pair_report(
    catalog: Catalog,
    spreads: UnitSpreads,
    sample: str,
    contrasts: Sequence[StudyContrast],
    unfit: Collection[tuple[str, int]] = (),
) -> PairReport | None:
    """A sample's contrasts on one pair as one report; ``None`` when they say nothing that could be weighed.

    The numbers of ``unfit`` results (study and index) count in no way, what was tested of them does.
    Several measurements of the same people are one report: their mean; tests that do not agree clearly show neither side ahead.
    Where anything was tested, only the numbers of what was tested count: a test bounds no number of another measurement.
    """
    believed = [c for c in contrasts if not c.doubt]
    stated = [c for c in believed if c.stated]
    signs = {_SIGNS[c.direction] for c in stated if c.direction}
    mixed = len(signs) > 1
    sign = 0 if mixed else signs.pop() if signs else None
    numbers = [
        (c, y)
        for c in believed
        if (c.study, c.result) not in unfit and (y := printed_log_ratio(catalog, c)) is not None
    ]
    used = [(c, y) for c, y in numbers if c.stated or not stated]
    if not used and sign is None:
        return None
    lead = used[0][0] if used else stated[0]
    y = fmean(y for _, y in used) if used else None
    study = catalog.studies[lead.study].data
    sizes = _sizes(study, lead)
    people = contributing(sizes, study.same_people)
    df = min(sizes) - 1 if study.same_people else sum(sizes) - 2
    spread = spreads.of(lead.outcome, lead.measure, people)
    return PairReport(sample, y, sign, _critical(stated, df), spread, mixed)


def printed_log_ratio(catalog: Catalog, report: StudyContrast) -> float | None:
    """Log ratio of the two sides as printed, whatever its spread; ``None`` when no number makes a ratio."""
    vocabulary = catalog.vocabulary
    assert vocabulary is not None
    if report.outcome in LISTED or not vocabulary.data.measures[report.measure].pools:
        return None
    given = report.contrast
    sign = -1 if report.flipped else 1
    if given and given.ratio:
        return sign * log(given.ratio.value)
    study = catalog.studies[report.study].data
    sides = (report.first, report.second)
    if any(_is_near_zero(study, study.results[report.result], side, report) for side in sides):
        return None
    amounts = [_amount(side, report.outcome) for side in sides]
    if amounts[0] is not None and amounts[1] is not None:
        return log(amounts[0] / amounts[1])
    if given and given.difference and given.difference.start and report.outcome in CHANGES:
        share = given.difference.value / given.difference.start
        return sign * log(1 + share) if share > -1 else None
    return None


def side_factor(side: ContrastSide, outcome: str) -> float | None:
    """Growth factor of one side, for outcomes that are changes."""
    return _amount(side, outcome) if outcome in CHANGES else None


def _amount(side: ContrastSide, outcome: str) -> float | None:
    value: Value | None = side.value
    if value is None:
        return None
    try:
        refuse_kind(value, outcome)
        found = (
            factor(value)
            if outcome in CHANGES
            else value.mean
            if value.mean is not None
            else value.median
        )
    except (Unusable, EvidenceError):
        return None
    return found if found is not None and found > 0 else None


def _is_near_zero(study: Study, result: Result, side: ContrastSide, report: StudyContrast) -> bool:
    """Whether a level's own spread forbids a ratio, or is none at all."""
    if side.value is None or report.outcome in CHANGES:
        return False
    try:
        refuse_near_zero(side.value, people_of(study, result, side.arm) or study.people.n)
    except (Unusable, EvidenceError):
        return True
    return False


def _sizes(study: Study, report: StudyContrast) -> tuple[float, float]:
    """People of either side; where groups were not read, an equal share of all."""
    groups = sum(1 for arm in study.arms.values())
    share = study.people.n if study.same_people else max(2.0, study.people.n / groups)
    found = []
    for side in (report.first, report.second):
        value = side.value
        own = (value.n if value and value.n else None) or study.arms[side.arm].n
        found.append(float(max(2, own or share)))
    return found[0], found[1]


def _critical(stated: Sequence[StudyContrast], df: float) -> float:
    """Size of t that the mildest of the tests asked for."""
    levels = []
    for report in stated:
        given = report.contrast
        p = (given.p_below or given.p_above or given.p) if given else None
        levels.append(p if p and p < 1 else _ALPHA)
    return t_from_p(max(levels, default=_ALPHA), max(1.0, df))
