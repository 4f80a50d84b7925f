"""The rule by which a plan goes on, in the words of ``programme.yaml``; what it asks is settled there, with its source."""

from __future__ import annotations

from dataclasses import dataclass

from ..catalog.entries import Programme

TOPIC = "progression"


@dataclass(frozen=True)
class ProgressionRule:
    """One piece of advice."""

    do: str
    because: str


def rules(programme: Programme) -> list[ProgressionRule]:
    """The advice on progression, in order; none where the programme has none."""
    topic = programme.topics.get(TOPIC)
    return [ProgressionRule(advice.do, advice.because) for advice in topic.advice] if topic else []
