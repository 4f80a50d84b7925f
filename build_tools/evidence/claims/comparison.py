"""The answer to one question: rows per sample, the answer in numbers, certainty and sentence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from ...catalog.load import Catalog
from ..certainty.rating import Override
from ..settings import Settings
from ..studies.contrasts import COVERS, StudyContrast
from ..studies.topic import Samples
from ..terms import LEVELS, Answer, Directions, Gains, Question
from ..threshold import above, below
from ..wording.names import Names
from ..wording.sentences import ComposedAnswer, compose_answer, run_together
from .answer_rating import AnswerRating
from .conclusions import Comparison, Row
from .sample_rows import SampleRows, clear_side, measure_of
from .weighing import Weighing

_SIDES = {"more": 1, "less": -1}
_CALLED = {
    "found": "a clear difference",
    "hinted": "a difference that is only hinted",
    "alike": "likeness",
    "unclear": "no clear difference",
}


class Answers:
    """Builds comparisons for one catalog under one set of conventions."""

    def __init__(self, catalog: Catalog, settings: Settings, names: Names) -> None:
        self._settings, self._names = settings, names
        self._rows, self._rating = SampleRows(catalog, names), AnswerRating(catalog, settings)

    def comparison(
        self,
        question: Question,
        weighing: Weighing | None,
        by_sample: Mapping[str, list[StudyContrast]],
        samples: Samples,
        tried: Sequence[tuple[str, Weighing]] = (),
        expected: Sequence[tuple[str, Weighing]] = (),
        override: Override | None = None,
    ) -> Comparison:
        """Everything on ``question``.

        ``by_sample`` are its contrasts, ``samples`` those of the numbers that answer it,
        ``tried`` the answers under other correlations and ``expected`` those with more or less spread
        between studies, each with what was changed; ``override`` is a certainty that the authors set.
        """
        pair = (question.first, question.second)
        pooled = samples.of_pair.get(frozenset(pair), set())
        reports = weighing.reports if weighing else {}
        rows = tuple(
            self._rows.row(
                pair,
                samples.by_key.get(key),
                key in pooled,
                by_sample.get(key, []),
                reports.get(key),
            )
            for key in sorted({*by_sample, *pooled})
        )
        if weighing is None:
            empty = Comparison(question, "not studied", None, rows, None, "", studies=0, people=0)
            told = self.sentence([empty]) if any(row.direction for row in rows) else ""
            return replace(empty, sentence=told)
        rows = tuple(_set_aside(row, weighing) for row in rows)
        counted = [row for row in rows if row.weighed]
        directions = _count(
            None if report.mixed else report.sign
            for report in weighing.reports.values()
            if report.y is None
        )
        studies, people = self._support(counted, weighing)
        comparison = Comparison(
            question=question,
            finding=weighing.finding,
            side=weighing.side,
            rows=rows,
            certainty=self._rating.certainty(question, counted, weighing, tried, override),
            sentence="",
            estimate=weighing.weighed.estimate if weighing.has_interval else None,
            measured=weighing.measured,
            dimension=weighing.topic.dimension,
            sized=weighing.sized,
            borrowed=weighing.borrowed,
            more=weighing.weighed.more,
            matters=weighing.weighed.matters,
            path=weighing.connected.path if weighing.connected else "direct",
            directions=directions,
            conflict=_conflict(counted),
            studies=studies,
            people=people,
            gains=self._gains(counted, weighing),
            weeks=self._weeks(counted),
            sensitive=_sensitive(weighing, tried, expected),
            outlook=weighing.outlook,
        )
        return replace(comparison, sentence=self.sentence([comparison]))

    def sentence(self, comparisons: list[Comparison]) -> str:
        """One sentence for comparisons that differ only in their part and share a finding; the lowest certainty words it."""
        return run_together([self.told(comparisons)])

    def told(self, comparisons: list[Comparison]) -> ComposedAnswer:
        """That sentence, and the short ones after it."""
        return compose_answer(self._names, self.answer(comparisons))

    def answer(self, comparisons: list[Comparison]) -> Answer:
        """What a sentence may tell of such comparisons."""
        first = comparisons[0]
        parts = tuple(c.question.part for c in comparisons)
        # One number over several parts is one finding, told once.
        alone = len(comparisons) == 1 or is_one_finding(comparisons)
        levels = [c.certainty.level for c in comparisons if c.certainty]
        counted = behind(first)
        one = counted[0] if len(counted) == 1 and first.path != "indirect" else None
        told = one if one and alone else None
        tests = {test for row in counted for test in row.strength_tests}
        together = {tuple(part for part in row.together if part not in parts) for row in counted}
        return Answer(
            question=first.question,
            parts=parts,
            finding=first.finding,
            side=first.side,
            level=min(levels, key=LEVELS.index) if levels else None,
            measured=first.measured,
            estimate=first.estimate if alone or not first.sized else None,
            sized=first.sized,
            borrowed=first.borrowed,
            trivial=_is_trivial(first, self._settings.margins[first.question.outcome]),
            gains=first.gains if alone else None,
            printed=told.printed if told else None,
            difference=told.difference if told else None,
            p=told.p if told else None,
            studies=first.studies or len(counted),
            people=first.people or sum(row.people for row in counted),
            groups=one.groups if one else None,
            weeks=first.weeks,
            path=first.path,
            directions=first.directions,
            tests=frozenset(test for row in counted for test in row.tests),
            own_test=any(clear_side(row) == _SIDES.get(first.side or "") for row in counted),
            conflict=first.conflict,
            untested=tuple(
                sorted(
                    (row.direction, row.tests[0] if len(row.tests) == 1 else "none")
                    for row in first.rows
                    if row.direction and not row.weighed and not row.stated
                )
            ),
            aside=tuple(
                sorted(
                    (row.direction, measure_of(row))
                    for row in first.rows
                    if row.direction and not row.weighed and row.stated
                )
            ),
            strength_test=tests.pop() if len(tests) == 1 else None,
            together=together.pop() if len(together) == 1 else (),
            as_tested=tuple(row.as_tested for row in counted),
            phase=_phase(counted),
        )

    def _support(self, counted: list[Row], weighing: Weighing) -> tuple[int, int]:
        """Studies and people that the answer rests on."""
        if weighing.connected and weighing.connected.path != "direct":
            further = [row for row in counted if row.study not in weighing.connected.studies]
            return (
                len(weighing.connected.studies) + len(further),
                weighing.connected.people + sum(row.people for row in further),
            )
        return len(counted), sum(row.people for row in counted)

    def _gains(self, counted: list[Row], weighing: Weighing) -> Gains | None:
        """What people gained: one study's own numbers, or the mean of the second side and what the answer makes of it."""
        told = [(row.gains, row.people) for row in counted if row.gains]
        if not told or not weighing.sized:
            return None
        if len(told) == 1:
            return told[0][0]
        people = sum(n for _, n in told)
        second = sum(gains.second * n for gains, n in told) / people
        return Gains(second * weighing.weighed.estimate.ratio, second, pooled=True)

    def _weeks(self, counted: list[Row]) -> tuple[float, float] | None:
        weeks = [row.weeks for row in counted if row.weeks is not None]
        return (min(weeks), max(weeks)) if weeks else None


def behind(comparison: Comparison) -> list[Row]:
    """The rows that an answer rests on; where nothing could be weighed, all that tell a direction, else all."""
    return (
        [row for row in comparison.rows if row.weighed]
        or [row for row in comparison.rows if row.direction or row.mixed]
        or list(comparison.rows)
    )


def is_one_finding(comparisons: Sequence[Comparison]) -> bool:
    """Whether comparisons of several parts all rest on the same numbers, each over all of these parts together."""
    found = {
        tuple((row.study, row.results) for row in comparison.rows) for comparison in comparisons
    }
    return len(found) == 1 and all(row.cover != "alone" for row in comparisons[0].rows)


def _conflict(rows: Iterable[Row]) -> bool:
    """Whether rows point opposite ways, each clearly."""
    return {1, -1} <= {clear_side(row) for row in rows}


def _is_trivial(comparison: Comparison, margin: float) -> bool:
    estimate = comparison.estimate
    if comparison.finding != "found" or estimate is None:
        return False
    return not (above(estimate.low, margin) or below(estimate.high, 1 / margin))


def _phase(rows: Sequence[Row]) -> str | None:
    """The one phase that every row is of."""
    found = {phase for row in rows for phase in row.phases}
    return found.pop() if len(found) == 1 else None


def _set_aside(row: Row, weighing: Weighing) -> Row:
    """A row that is not weighed because it measured something else says so; a missing spread is then not why."""
    covers = COVERS[weighing.measured]
    other = row.dimension != weighing.topic.dimension or row.cover != covers
    if row.weighed or not other:
        return row
    what = weighing.topic.dimension or "what was measured more directly"
    return replace(row, how=f"listed: it measured {measure_of(row)}; {what} is weighed")


def _count(signs: Iterable[int | None]) -> Directions:
    found = list(signs)
    return Directions(found.count(1), found.count(-1), found.count(0), mixed=found.count(None))


def _sensitive(
    weighing: Weighing,
    tried: Sequence[tuple[str, Weighing]],
    expected: Sequence[tuple[str, Weighing]],
) -> str | None:
    """What would change under other assumptions: a sentence for each other finding."""
    now = (weighing.finding, weighing.side)
    assumed = [
        *tried,
        *((f"{what} the spread between studies expected", found) for what, found in expected),
    ]
    moved: dict[str, list[str]] = {}
    for what, found in assumed:
        if (found.finding, found.side) != now:
            moved.setdefault(_CALLED[found.finding], []).append(f"with {what}")
    if not moved:
        return None
    told = [f"{called} {' or '.join(whats)}" for called, whats in moved.items()]
    return f"It rests on what is assumed: there would be {'; '.join(told)}."
