"""The answer to one question: rows per sample, the combined estimate, certainty and sentence."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import exp, sqrt

from ...catalog.entries import Study
from ...catalog.load import Catalog
from ..certainty.rating import (
    LEVELS,
    Certainty,
    EvidenceBody,
    Incoherence,
    Override,
    RatedSample,
    certainty,
)
from ..certainty.words import Sizes, phrase, size
from ..effects.spread import critical
from ..settings import Settings
from ..studies import print_style as printed
from ..studies.arm_means import compared, groups
from ..studies.contrasts import Cover, Direction, StudyContrast
from ..studies.samples import Sample, sample_names
from ..studies.topic import Samples
from ..wording import sentences
from ..wording.names import Names
from .conclusions import Comparison, Path, Question, Row, Shape
from .verdict import Claimed, Directions, Judged, RatioInterval, verdict

_COVERS: dict[Cover, str] = {
    "jointly": "Measured together with other parts.",
    "whole muscle": "The whole muscle was measured, not the part.",
}


@dataclass(frozen=True)
class Combined:
    """What the network says on one question, and what the certainty rules ask of it."""

    estimate: RatioInterval
    path: Path
    studies: tuple[str, ...]
    """The study that speaks for each sample that the estimate rests on."""
    people: int
    common: RatioInterval | None = None
    prediction: tuple[float, float] | None = None
    i2: float | None = None
    tau2: float | None = None
    q_p: float | None = None
    direct_share: float = 1.0
    incoherence: Incoherence | None = None


class Answers:
    """Builds comparisons for one catalog under one set of conventions."""

    def __init__(self, catalog: Catalog, settings: Settings, names: Names) -> None:
        self._catalog, self._settings, self._names = catalog, settings, names
        # An indirect answer rests on many samples, and so does the next one.
        self._rated = cache(self._rate)
        self._sample_of = sample_names({key: entry.data for key, entry in catalog.studies.items()})

    def comparison(
        self,
        question: Question,
        samples: Samples,
        reported: list[StudyContrast],
        combined: Combined | None,
        tried: Sequence[tuple[str, RatioInterval]] = (),
        override: Override | None = None,
    ) -> Comparison:
        """Everything on ``question``.

        ``samples`` are those of its part and outcome, ``reported`` its contrasts, and
        ``tried`` the estimates under other correlations, each with what was changed;
        ``override`` is a certainty that the authors set.
        """
        pair = (question.first, question.second)
        by_sample: dict[str, list[StudyContrast]] = defaultdict(list)
        for report in reported:
            by_sample[self._sample_of[report.study]].append(report)
        of_pair = samples.of_pair.get(frozenset(pair), set())
        rows = tuple(
            self._row(pair, samples.by_key.get(key), key in of_pair, by_sample.get(key, []))
            for key in sorted({*by_sample, *of_pair})
        )
        directions = _count(row.direction for row in rows if row.estimate is None and row.stated)
        estimate = combined.estimate if combined else None
        margin = self._settings.margins[question.outcome]
        found = sentences.shape(estimate, directions, margin)
        if found == "untested" and read_off(rows) is not None:
            found = "read off"
        tested = found not in ("untested", "read off")
        rated = (
            self._certainty(question, rows, samples, directions, combined, tried, override)
            if tested
            else None
        )
        studies, people = self._support(rows, combined)
        comparison = Comparison(
            question=question,
            estimate=estimate,
            path=combined.path if combined else None,
            rows=rows,
            directions=directions,
            certainty=rated,
            shape=found,
            sentence="",
            studies=studies,
            people=people,
            prediction=combined.prediction if combined else None,
            i2=combined.i2 if combined else None,
            sensitive=_sensitive(found, tried, margin) if combined else None,
        )
        return replace(comparison, sentence=self.sentence([comparison]))

    def sentence(self, comparisons: list[Comparison]) -> str:
        """One sentence for comparisons that differ only in their part and share a shape; the lowest certainty words it."""
        first, alone = comparisons[0], len(comparisons) == 1
        parts = tuple(c.question.part for c in comparisons)
        # One number over several parts is one finding, told once.
        alone = alone or is_one_finding(comparisons)
        behind = self._behind(comparisons, alone)
        if first.shape == "read off":
            direction = read_off(first.rows)
            assert direction is not None  # or it would have no shape
            return sentences.read_off(self._names, first.question, parts, direction, behind)
        rated = [c.certainty.level for c in comparisons if c.certainty]
        if not rated:
            return ""
        return sentences.answer(
            self._names,
            first.question,
            parts,
            first.shape,
            min(rated, key=LEVELS.index),
            behind,
            estimate=first.estimate if alone else None,
            directions=first.directions,
            degree=self._degree(first) if alone else "",
        )

    def _behind(self, comparisons: list[Comparison], alone: bool) -> sentences.Behind:
        """What the sentence says of the studies behind an answer."""
        first = comparisons[0]
        counted = behind(first)
        parts = {c.question.part for c in comparisons}
        support = sentences.support(
            first.studies,
            first.people,
            first.path == "indirect",
            counted[0].groups if len(counted) == 1 and first.path != "indirect" else None,
        )
        figures = (
            first.rows[0].printed
            if alone and first.estimate is None and len(first.rows) == 1
            else None
        )
        tests = {test for row in counted for test in row.strength_tests}
        together = {tuple(part for part in row.together if part not in parts) for row in counted}
        return sentences.Behind(
            support=support,
            printed=figures,
            spread_printed=bool(figures) and first.rows[0].spread_printed,
            tests=frozenset(test for row in counted for test in row.tests),
            strength_test=tests.pop() if len(tests) == 1 else None,
            untested=tuple(
                sorted(
                    (row.direction, row.tests[0] if len(row.tests) == 1 else "none")
                    for row in first.rows
                    if row.direction and not row.stated and row not in counted
                )
            ),
            phase=_phase(counted),
            together=together.pop() if len(together) == 1 else (),
            jointly=all(row.cover == "jointly" for row in counted),
            as_tested=tuple(row.as_tested for row in counted),
        )

    def _degree(self, comparison: Comparison) -> str:
        estimate, outcome = comparison.estimate, comparison.question.outcome
        if (
            estimate is None
            or comparison.certainty is None
            or comparison.shape not in ("more", "less")
        ):
            return ""
        margin, large = self._settings.margins[outcome], self._settings.large[outcome]
        sizes = Sizes(margin, min(margin**2, sqrt(margin * large)), large)
        told = size(estimate.ratio, sizes)
        return phrase(comparison.certainty.level, told).degree if told != "trivial" else "slightly"

    def _row(
        self, pair: tuple[str, str], whole: Sample | None, pools: bool, reports: list[StudyContrast]
    ) -> Row:
        """One sample's row; ``whole`` is all that it measured, which is pooled on this pair when ``pools``."""
        sample = whole if pools else None
        # The publication that speaks of this pair, where several share a sample.
        key = sample.pooled[0].study if sample else reports[0].study
        study = self._catalog.studies[key].data
        reference = self._catalog.references.get(key)
        direction, stated, mixed = _direction(reports)
        single = printed.numbers(reports[0]) if len(reports) == 1 else None
        did = {side.exercise for r in reports for side in (r.first, r.second)} or None
        strength = {r.strength_test for r in reports if r.strength_test}
        return Row(
            study=key,
            results=tuple(sorted({r.result for r in reports if r.study == key})),
            people=compared(study, did),
            read=reference.read if reference else "",
            estimate=own(sample, pair) if sample else None,
            direction=direction,
            stated=stated,
            how=_how(sample, whole, reports),
            texts=tuple(printed.reading(self._catalog, self._names, r) for r in reports),
            notes=self._notes(reports),
            differs=any(self._differs(r) for r in reports),
            cover=_cover(sample, reports),
            printed=single,
            mixed=mixed,
            spread_printed=len(reports) == 1 and printed.has_spread(reports[0]),
            groups=groups(study),
            tests=tuple(sorted({r.test for r in reports if r.direction == direction})),
            as_tested=self._as_tested(reports),
            together=self._together(reports),
            phases=tuple(sorted({r.phase for r in reports}, key=str)),
            strength_tests=tuple(sorted(strength)),
        )

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

    def _support(self, rows: tuple[Row, ...], combined: Combined | None) -> tuple[int, int]:
        """Studies and people of the sentence: those behind the estimate, else those that state a direction."""
        if combined and combined.path == "direct":
            pooled = [row for row in rows if row.estimate]
            return len(pooled), sum(row.people for row in pooled)
        if combined:
            return len(combined.studies), combined.people
        counted = _speaking(rows)
        return len(counted), sum(row.people for row in counted)

    def _certainty(
        self,
        question: Question,
        rows: tuple[Row, ...],
        samples: Samples,
        directions: Directions,
        combined: Combined | None,
        tried: Sequence[tuple[str, RatioInterval]],
        override: Override | None,
    ) -> Certainty:
        if combined and combined.path == "indirect":
            rated = tuple(
                self._rated(key, question.outcome, key in samples.jointly)
                for key in combined.studies
            )
        else:
            counted = [
                row for row in rows if (row.estimate is not None if combined else row.stated)
            ]
            rated = tuple(
                _seen(self._rated(row.study, question.outcome, False), row) for row in counted
            )
        margin = self._settings.margins[question.outcome]
        if combined is None:
            return certainty(
                EvidenceBody(
                    outcome=question.outcome, samples=rated, margin=margin, directions=directions
                ),
                override,
            )
        side: Claimed = "more" if combined.estimate.ratio >= 1 else "less"
        body = EvidenceBody(
            outcome=question.outcome,
            samples=rated,
            margin=margin,
            directions=directions,
            estimate=combined.estimate,
            common=combined.common,
            i2=combined.i2,
            tau2=combined.tau2,
            q_p=combined.q_p,
            prediction=combined.prediction,
            direct_share=combined.direct_share,
            incoherence=combined.incoherence,
            verdicts=tuple(
                verdict(side, estimate, Directions(), margin).verdict
                for estimate in (combined.estimate, *(estimate for _, estimate in tried))
            ),
        )
        return certainty(body, override)

    def _rate(self, key: str, outcome: str, jointly: bool) -> RatedSample:
        """A sample as far as no pair is asked about: all of its exercises count."""
        study = self._catalog.studies[key].data
        reference = self._catalog.references.get(key)
        return RatedSample(
            study=key,
            design=study.design,
            n=compared(study),
            measured=outcome,
            read=reference.read if reference else "memory",  # type: ignore[arg-type]
            paired=study.same_people,
            correlation=self._alike(study, outcome) if study.same_people else 0.0,
            risk_of_bias=study.risk_of_bias.judgement if study.risk_of_bias else None,
            differs=any(arm.differs for arm in study.arms.values() if arm.treatment),
            jointly=jointly,
        )

    def _alike(self, study: Study, outcome: str) -> float:
        """The least correlation of two arms that holds for any of the study's measures of an outcome."""
        assert self._catalog.vocabulary is not None
        of = {id: measure.outcome for id, measure in self._catalog.vocabulary.data.measures.items()}
        measures = sorted({r.measure for r in study.results if of.get(r.measure) == outcome})
        return min(
            (self._settings.correlation("arms", outcome, measure) for measure in measures),
            default=0.0,
        )


def _seen(sample: RatedSample, row: Row) -> RatedSample:
    """A sample with what its row shows of this very pair."""
    return replace(
        sample,
        n=row.people,
        differs=row.differs,
        jointly=row.cover == "jointly",
        whole_muscle=row.cover == "whole muscle",
    )


def as_estimate(y: float, low: float, high: float, bounded: bool = False) -> RatioInterval:
    """A ratio with its interval, from log ratios."""
    # exp of equal logs may differ in the last digit, which must not turn an interval inside out.
    ratio = exp(y)
    return RatioInterval(ratio, min(exp(low), ratio), max(exp(high), ratio), bounded)


def own(sample: Sample, pair: tuple[str, str]) -> RatioInterval | None:
    """A sample's own ratio of a pair with its own t interval: the paper's test of the two where it prints one, else from its block."""
    if edge := sample.tested(*pair):
        half = critical(edge.df) * edge.estimate.se
        return as_estimate(
            edge.estimate.y, edge.estimate.y - half, edge.estimate.y + half, edge.bounded
        )
    block = sample.block
    if block is None:
        return None
    at = {t: n - 1 for n, t in enumerate(block.treatments)}
    i, j = at[pair[0]], at[pair[1]]
    y = (block.y[i] if i >= 0 else 0.0) - (block.y[j] if j >= 0 else 0.0)
    variance = (
        (block.v[i, i] if i >= 0 else 0.0)
        + (block.v[j, j] if j >= 0 else 0.0)
        - (2 * block.v[i, j] if i >= 0 and j >= 0 else 0.0)
    )
    half = critical(block.df) * sqrt(variance)
    return as_estimate(float(y), float(y) - half, float(y) + half, block.bounded)


def _how(sample: Sample | None, whole: Sample | None, reports: list[StudyContrast]) -> str:
    """How the spread of a pooled sample was had, or why it is only listed."""
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
    return f"listed, not pooled: {' and '.join(dict.fromkeys(reasons)) or 'no spread could be had'}"


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
    return next((cover for cover in ("alone", "jointly") if cover in covers), "whole muscle")


def judge(claimed: Claimed, comparison: Comparison, margin: float) -> Judged:
    """The verdict on one part of a claim; untested where something was printed of which no test of the two was read."""
    if comparison.shape == "read off" or comparison.shape == "untested" and comparison.rows:
        return Judged(
            "untested",
            "Something was printed for both, but no test of the two against each other and no spread was read.",
        )
    return verdict(claimed, comparison.estimate, comparison.directions, margin)


def behind(comparison: Comparison) -> list[Row]:
    """The rows that an answer rests on: pooled ones, else those that state a direction, else all."""
    pooled = [row for row in comparison.rows if row.estimate] if comparison.estimate else []
    return pooled or _speaking(comparison.rows)


def _speaking(rows: Sequence[Row]) -> list[Row]:
    """The rows that state a direction, else those that show one untested, else all."""
    return (
        [row for row in rows if row.stated]
        or [row for row in rows if row.direction or row.mixed]
        or list(rows)
    )


def _phase(rows: Sequence[Row]) -> str | None:
    """The one phase that every row is of."""
    found = {phase for row in rows for phase in row.phases}
    return found.pop() if len(found) == 1 else None


def is_one_finding(comparisons: Sequence[Comparison]) -> bool:
    """Whether comparisons of several parts all rest on the same numbers, each over all of these parts together."""
    found = {
        tuple((row.study, row.results) for row in comparison.rows) for comparison in comparisons
    }
    return len(found) == 1 and all(row.cover == "jointly" for row in comparisons[0].rows)


def read_off(rows: tuple[Row, ...]) -> Direction | None:
    """The direction in which untested numbers point, when all point the same way."""
    found = {row.direction for row in rows} - {None}
    return found.pop() if len(found) == 1 and not any(row.mixed for row in rows) else None


def _count(directions: Iterable[Direction | None]) -> Directions:
    found = list(directions)
    return Directions(
        found.count("more"), found.count("less"), found.count("neither"), mixed=found.count(None)
    )


def _sensitive(
    found: Shape, tried: Sequence[tuple[str, RatioInterval]], margin: float
) -> str | None:
    """What would change over the stated ranges, in one sentence."""
    told = {
        "more": "a clear difference",
        "less": "a clear difference",
        "alike": "likeness",
        "unclear": "no clear difference",
    }
    changed = [
        f"{told[other]} with {what}"
        for what, estimate in tried
        if (other := sentences.shape(estimate, Directions(), margin)) != found
    ]
    return (
        f"It rests on an assumed correlation: there would be {' and '.join(changed)}."
        if changed
        else None
    )
