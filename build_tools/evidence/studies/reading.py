"""One result of one study, read as amounts of one outcome under the handbook's settings."""

from __future__ import annotations

from dataclasses import dataclass

from ...catalog.entries import CorrelationKind, Result, Study
from ..settings import Settings


@dataclass(frozen=True)
class Reading:
    """What every step from a printed number to a log ratio needs to know."""

    study: Study
    result: Result
    outcome: str
    settings: Settings

    def correlation(self, kind: CorrelationKind) -> float:
        """How alike two numbers of the same people are taken to be where nothing printed tells it."""
        return self.settings.correlation(kind, self.outcome, self.result.measure)

    def people(self, arm: str) -> int | None:
        """How many people an arm's number rests on; ``None`` when only the whole study's number is known."""
        return people_of(self.study, self.result, arm)


def people_of(study: Study, result: Result, arm: str) -> int | None:
    """How many people an arm's number rests on, as ``Reading.people``."""
    value = result.values.get(arm)
    own = value.n if value and value.n else study.arms[arm].n
    return own or (study.people.n if study.same_people else None)
