"""What one sample of people shows on a question, as a row of its answer."""

from __future__ import annotations

from math import exp
from typing import Literal

from ...catalog.load import Catalog
from ..effects.spread import critical
from ..model.finding import ratio_interval
from ..model.reports import PairReport
from ..studies import print_style
from ..studies.arm_means import compared, groups
from ..studies.contrasts import Cover, Direction, StudyContrast
from ..studies.pair_reports import side_factor
from ..studies.samples import Sample
from ..terms import Gains, RatioInterval
from ..threshold import above, below
from ..wording.names import Names
from .conclusions import Row

_COVERS: dict[Cover, str] = {
    "jointly": "Measured together with other parts.",
    "whole muscle": "The whole muscle was measured, not the part.",
}


class SampleRows:
    """Builds rows for one catalog."""

    def __init__(self, catalog: Catalog, names: Names) -> None:
        self._catalog, self._names = catalog, names

    def row(
        self,
        pair: tuple[str, str],
        sample: Sample | None,
        pooled: bool,
        reports: list[StudyContrast],
        weighed: PairReport | None,
    ) -> Row:
        """One sample's row; ``sample`` is all that it measured, which is pooled on this pair when ``pooled``.

        ``weighed`` is what it weighs as without a spread of its own.
        """
        own = sample if pooled else None
        # The publication that speaks of this pair, where several share a sample.
        key = own.pooled[0].study if own else reports[0].study
        study = self._catalog.studies[key].data
        reference = self._catalog.references.get(key)
        direction, stated, mixed = _direction(reports)
        single = reports[0] if len(reports) == 1 else None
        did = {side.exercise for r in reports for side in (r.first, r.second)} or None
        printed = print_style.numbers(single) if single else None
        difference = print_style.difference(single) if single else None
        return Row(
            study=key,
            results=tuple(sorted({r.result for r in reports if r.study == key})),
            people=compared(study, did),
            read=reference.read if reference else "",
            estimate=_own(own, pair) if own else None,
            direction=direction,
            stated=stated,
            how=_how(own, sample, reports, weighed),
            texts=tuple(print_style.reading(self._catalog, self._names, r) for r in reports),
            notes=self._notes(reports),
            differs=any(self._differs(r) for r in reports),
            cover=_cover(own, reports),
            printed=printed if printed != difference else None,
            mixed=mixed,
            spread_printed=single is not None and print_style.has_spread(single),
            groups=groups(study),
            tests=tuple(sorted({r.test for r in reports if r.direction == direction})),
            as_tested=self._as_tested(reports),
            together=self._together(reports),
            phases=tuple(sorted({r.phase for r in reports}, key=str)),
            strength_tests=tuple(sorted({r.strength_test for r in reports if r.strength_test})),
            dimension=self._dimension(reports),
            weighed=pooled or weighed is not None,
            ratio=exp(weighed.y) if weighed and weighed.y is not None else None,
            gains=_row_gains(reports),
            p=print_style.p_value(single) if single else None,
            difference=difference,
            weeks=study.weeks,
        )

    def _dimension(self, reports: list[StudyContrast]) -> str | None:
        """What the numbers behind a row are of growth; of several the first by name."""
        assert self._catalog.vocabulary is not None
        measures = self._catalog.vocabulary.data.measures
        found = {measures[report.measure].dimension for report in reports} - {None}
        return min(found, key=str, default=None)

    def _as_tested(self, reports: list[StudyContrast]) -> tuple[tuple[str, str], ...]:
        found: dict[str, str] = {}
        for report in reports:
            arms = self._catalog.studies[report.study].data.arms
            for side in (report.first, report.second):
                if differs := arms[side.arm].differs:
                    found.setdefault(side.exercise, differs)
        return tuple(sorted(found.items()))

    def _together(self, reports: list[StudyContrast]) -> tuple[str, ...]:
        """The parts that one number covers beside the one asked for; none as soon as something was measured alone."""
        if any(report.cover != "jointly" for report in reports):
            return ()
        covered = {
            part
            for r in reports
            for part in self._catalog.studies[r.study].data.results[r.result].parts
        }
        return tuple(sorted(covered - {report.first.part for report in reports}))

    def _notes(self, reports: list[StudyContrast]) -> tuple[str, ...]:
        notes = [note for report in reports for note in self._differs(report)]
        notes += [f"In doubt: {report.doubt}" for report in reports if report.doubt]
        covers = {report.cover for report in reports}
        notes += [note for cover, note in _COVERS.items() if cover in covers]
        return tuple(dict.fromkeys(notes))

    def _differs(self, report: StudyContrast) -> list[str]:
        arms = self._catalog.studies[report.study].data.arms
        sides = (arms[side.arm] for side in (report.first, report.second))
        return [f"{arm.called}: {arm.differs}" for arm in sides if arm.differs]


def _own(sample: Sample, pair: tuple[str, str]) -> RatioInterval | None:
    """A sample's own ratio of a pair with its own t interval."""
    found = sample.own(*pair)
    if found is None:
        return None
    (y, se), df = found
    half = critical(df) * se
    return ratio_interval(y, y - half, y + half)


def _row_gains(reports: list[StudyContrast]) -> Gains | None:
    """What the people of one sample gained with either side, over its measurements that tell both."""
    told = []
    for report in reports:
        sides = [side_factor(side, report.outcome) for side in (report.first, report.second)]
        if sides[0] is not None and sides[1] is not None and not report.doubt:
            told.append((sides[0], sides[1]))
    if not told:
        return None
    return Gains(sum(a for a, _ in told) / len(told), sum(b for _, b in told) / len(told))


def _how(
    sample: Sample | None,
    whole: Sample | None,
    reports: list[StudyContrast],
    weighed: PairReport | None,
) -> str:
    """How the spread of a pooled sample was had, or why it has none."""
    if sample:
        several = (
            f"; {len(sample.pooled)} measurements of the same people combined into one"
            if len(sample.pooled) > 1
            else ""
        )
        return " and ".join(dict.fromkeys(s.measured.how for s in sample.pooled)) + several
    reported = {(r.study, r.result) for r in reports}
    sources = whole.sources if whole else ()
    reasons = [
        s.measured.how
        for s in sources
        if not s.measured.block and (s.study, s.measured.result) in reported
    ]
    why = " and ".join(dict.fromkeys(reasons)) or "no spread could be had"
    if weighed is None:
        return f"listed, not weighed: {why}"
    if weighed.y is None:
        return f"only its direction is weighed: {why}"
    return f"weighed with a spread borrowed from other studies: {why}"


def _direction(reports: list[StudyContrast]) -> tuple[Direction | None, bool, bool]:
    """The direction of one sample over its measurements, whether the paper states it, and whether they point different ways.

    A sample whose measurements disagree shows no direction of its own, which is not the same as no difference.
    """
    stated = {r.direction for r in reports if r.stated}
    found = stated or {r.direction for r in reports if not r.doubt} - {None}
    return (min(found, key=str) if len(found) == 1 else None), bool(stated), len(found) > 1


def _cover(sample: Sample | None, reports: list[StudyContrast]) -> Cover:
    """How the part was covered by what counts: the pooled measurements, else the reported ones."""
    covers = {s.cover for s in sample.pooled} if sample else {r.cover for r in reports}
    if sample and sample.measured == "part" and all(r.cover == "whole muscle" for r in reports):
        covers = {r.cover for r in reports} or covers
    return next((cover for cover in ("alone", "jointly") if cover in covers), "whole muscle")


def clear_side(row: Row) -> Literal[-1, 0, 1]:
    """The side that a sample shows clearly: by its interval, else by its own test of the two."""
    if row.estimate:
        return 1 if above(row.estimate.low, 1) else -1 if below(row.estimate.high, 1) else 0
    if not row.stated:
        return 0
    return 1 if row.direction == "more" else -1 if row.direction == "less" else 0


def measure_of(row: Row) -> str:
    """What a row measured that sets it apart from those that are weighed."""
    if row.cover == "alone":
        return row.dimension or "it in another way"
    return "several parts as one" if row.cover == "jointly" else "the whole muscle"
