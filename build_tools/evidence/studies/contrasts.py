"""Contrasts as the catalog's studies report them, turned the way round a reader asks.

A study compares arms; a reader asks of two exercises (for one part) or of two
parts (in one exercise). ``Reports`` finds every reported contrast that bears on
such a question, whoever cites it, so that a contrary study counts although
nobody quotes it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Literal

from ...catalog.entries import Contrast, Result, Test, Value
from ...catalog.load import Catalog
from ..terms import Measured
from .study_index import StudyIndex

Direction = Literal["more", "less", "neither"]
#: How a measurement covers the part asked for: it alone, it together with other
#: parts (one electrode over two heads), or the whole muscle it belongs to.
Cover = Literal["alone", "jointly", "whole muscle"]
#: What was measured for the part asked for -> how a measurement then covers it; from the most direct.
COVERS: dict[Measured, Cover] = {
    "part": "alone",
    "together": "jointly",
    "whole": "whole muscle",
}

_FLIPPED: dict[Direction, Direction] = {"more": "less", "less": "more", "neither": "neither"}


@dataclass(frozen=True)
class ContrastSide:
    """One side of a contrast: arm, what it did, part measured, and its value when the study gives one."""

    arm: str
    exercise: str
    """The exercise, or a version of it."""
    part: str
    value: Value | None


@dataclass(frozen=True)
class StudyContrast:
    """One reported contrast, ``first`` against ``second``, with its place in the study."""

    study: str
    result: int
    """Index into the study's results."""
    outcome: str
    measure: str
    unit: str
    """Empty where there is no number."""
    at: str
    """Where it was read."""
    site: str | None
    """Site and phase."""
    relative_to: str | None
    cover: Cover
    first: ContrastSide
    second: ContrastSide
    direction: Direction | None
    """What the paper reports, or which value is larger; ``None`` when neither is known."""
    stated: bool
    """True when the paper tested the two against each other and states the direction."""
    test: Test
    """What stands behind the direction; ``none`` when it is read off two values."""
    phase: str | None
    doubt: str | None
    """Why the number is shown but never weighed."""
    strength_test: str | None
    contrast: Contrast | None
    flipped: bool
    """True when ``contrast`` is written the other way round (its numbers change sign)."""


class Reports:
    """All reported contrasts of a catalog, indexed by exercise and by measured part."""

    def __init__(self, catalog: Catalog, index: StudyIndex | None = None) -> None:
        vocabulary = catalog.vocabulary
        self._outcomes = (
            {id: m.outcome for id, m in vocabulary.data.measures.items()} if vocabulary else {}
        )
        self.index = index or StudyIndex(catalog)
        # Every way of weighing a catalog asks the same.
        self.of_exercises = cache(self._of_exercises)
        self.of_parts = cache(self._of_parts)

    def _of_exercises(
        self, first: str, second: str, part: str, outcome: str, relative_to: str | None = None
    ) -> list[StudyContrast]:
        """Contrasts of two exercises on one part: measured alone, jointly, or as its whole muscle."""
        found = []
        for key, arm_a, arm_b in self._shared(first, second):
            for index, result in self._results(key, outcome, relative_to):
                how = cover(result.parts, part)
                if how:
                    found += self._pair(
                        key, index, result, how, (arm_a, first, part), (arm_b, second, part)
                    )
        return found

    def _of_parts(
        self, exercise: str, first: str, second: str, outcome: str
    ) -> list[StudyContrast]:
        """Contrasts of two parts within one exercise, stated or read off two results of one study."""
        found = []
        for key, arm in self.index.arms_of.get(exercise, []):
            results = list(self._results(key, outcome, None))
            stated = [
                r
                for index, result in results
                for r in self._pair(
                    key, index, result, "alone", (arm, exercise, first), (arm, exercise, second)
                )
            ]
            found += stated or list(self._across(key, arm, exercise, first, second, results))
        return found

    def on_part(
        self, part: str, outcome: str, relative_to: str | None = None
    ) -> list[StudyContrast]:
        """Every contrast of two different exercises, or of versions of one, measured on this part, alone or jointly."""
        found = []
        for key in self.index.measuring.get(part, []):
            arms = list(self.index.doing(key).items())
            for index, result in self._results(key, outcome, relative_to):
                how = cover(result.parts, part)
                if how in (None, "whole muscle"):
                    continue
                for n, (arm_a, first) in enumerate(arms):
                    for arm_b, second in arms[n + 1 :]:
                        if first != second:
                            found += self._pair(
                                key, index, result, how, (arm_a, first, part), (arm_b, second, part)
                            )
        return found

    def _shared(self, first: str, second: str) -> Iterator[tuple[str, str, str]]:
        there: dict[str, list[str]] = defaultdict(list)
        for key, arm in self.index.arms_of.get(second, []):
            there[key].append(arm)
        for key, arm_a in self.index.arms_of.get(first, []):
            for arm_b in there.get(key, ()):
                yield key, arm_a, arm_b

    def _results(
        self, key: str, outcome: str, relative_to: str | None
    ) -> Iterator[tuple[int, Result]]:
        for index, result in self.index.results(key):
            if self._outcomes.get(result.measure) == outcome and result.relative_to == relative_to:
                yield index, result

    def _pair(
        self,
        key: str,
        index: int,
        result: Result,
        cover: Cover,
        first: tuple[str, str, str],
        second: tuple[str, str, str],
    ) -> list[StudyContrast]:
        """The contrast of two sides (arm, exercise, part) in one result, if it holds one."""
        of_parts = first[2] != second[2]
        for contrast in self.index.contrasts(key, index):
            for flipped, (a, b) in enumerate(((first, second), (second, first))):
                parts_fit = (contrast.of_part, contrast.against_part) == (
                    (a[2], b[2]) if of_parts else (None, None)
                )
                if (
                    (contrast.of, contrast.against) == (a[0], b[0])
                    and parts_fit
                    and contrast.test != "not reported"
                ):
                    stated = _stated(contrast, bool(flipped))
                    return [
                        self._reported(
                            key,
                            index,
                            result,
                            cover,
                            first,
                            second,
                            contrast,
                            bool(flipped),
                            stated,
                        )
                    ]
        if of_parts or first[0] not in result.values or second[0] not in result.values:
            return []
        return [self._reported(key, index, result, cover, first, second, None, False, None)]

    def _reported(
        self,
        key: str,
        index: int,
        result: Result,
        cover: Cover,
        first: tuple[str, str, str],
        second: tuple[str, str, str],
        contrast: Contrast | None,
        flipped: bool,
        stated: Direction | None,
    ) -> StudyContrast:
        of_parts = first[2] != second[2]
        sides = [
            ContrastSide(*side, value=None if of_parts else result.values.get(side[0]))
            for side in (first, second)
        ]
        return self._made(
            key,
            index,
            result,
            cover,
            sides,
            stated or _from_values(sides[0].value, sides[1].value),
            contrast,
            flipped,
        )

    def _made(
        self,
        key: str,
        index: int,
        result: Result,
        cover: Cover,
        sides: list[ContrastSide],
        direction: Direction | None,
        contrast: Contrast | None,
        flipped: bool,
    ) -> StudyContrast:
        tested = (
            contrast is not None
            and contrast.tested
            and contrast.favours is not None
            and result.doubt is None
        )
        return StudyContrast(
            study=key,
            result=index,
            outcome=self._outcomes[result.measure],
            measure=result.measure,
            unit=result.unit or "",
            at=result.place,
            site=result.where,
            relative_to=result.relative_to,
            cover=cover,
            first=sides[0],
            second=sides[1],
            direction=direction,
            stated=tested,
            test=contrast.test if contrast else "none",
            phase=result.phase,
            doubt=result.doubt,
            strength_test=result.strength_test,
            contrast=contrast,
            flipped=flipped,
        )

    def _across(
        self,
        key: str,
        arm: str,
        exercise: str,
        first: str,
        second: str,
        results: list[tuple[int, Result]],
    ) -> Iterator[StudyContrast]:
        """Two parts measured by two results of one study, alike in measure, unit, site and phase."""
        for index, a in results:
            for _, b in results:
                if (
                    alike(a, b)
                    and a.parts == [first]
                    and b.parts == [second]
                    and arm in a.values
                    and arm in b.values
                ):
                    sides = [
                        ContrastSide(arm, exercise, first, a.values[arm]),
                        ContrastSide(arm, exercise, second, b.values[arm]),
                    ]
                    yield self._made(
                        key,
                        index,
                        a,
                        "alone",
                        sides,
                        _from_values(sides[0].value, sides[1].value),
                        None,
                        False,
                    )


def alike(a: Result, b: Result) -> bool:
    """Whether two results measure in the same way, so that two parts can be set against each other."""
    return (a.measure, a.unit, a.where) == (b.measure, b.unit, b.where)


def cover(measured: list[str], part: str) -> Cover | None:
    """How a measurement of ``measured`` parts covers ``part``; ``None`` when it does not."""
    if part in measured:
        return "alone" if len(measured) == 1 else "jointly"
    return "whole muscle" if "/" in part and part.partition("/")[0] in measured else None


def _stated(contrast: Contrast, flipped: bool) -> Direction | None:
    if contrast.favours is None:
        return None
    direction: Direction = {"of": "more", "against": "less", "neither": "neither"}[contrast.favours]  # type: ignore[assignment]
    return _FLIPPED[direction] if flipped else direction


def level(value: Value) -> float:
    """The number a reader compares: the change where there is one, else the level (in the result's unit)."""
    for number in (value.change_percent, value.change, value.mean, value.median):
        if number is not None:
            return number
    assert value.pre and value.post  # the model allows nothing else
    return value.post.mean - value.pre.mean


def _from_values(first: Value | None, second: Value | None) -> Direction | None:
    """Which value is larger. Equal values are no statement, and neither is a pair of unlike kinds."""
    if (
        first is None
        or second is None
        or _kind(first) != _kind(second)
        or level(first) == level(second)
    ):
        return None
    return "more" if level(first) > level(second) else "less"


def _kind(value: Value) -> str:
    return next(
        (
            k
            for k in ("change_percent", "change", "mean", "median")
            if getattr(value, k) is not None
        ),
        "pre and post",
    )
