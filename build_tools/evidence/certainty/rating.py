"""Certainty of the evidence on one contrast and one outcome, in GRADE's words, with every step's reason.

The rules stand one domain a module beside this one. Nothing is rated up
by rule: GRADE's thresholds for large effects are stated for relative risks, and
none was found for ratios of means; authors may override with a reason and a source.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..terms import LEVELS, Level
from . import caps as _caps
from . import imprecision as _imprecision
from . import inconsistency as _inconsistency
from . import indirectness as _indirectness
from . import publication_bias as _publication_bias
from . import risk_of_bias as _risk_of_bias
from . import start as _start
from .body import Cap, CertaintyRule, EvidenceBody, Incoherence, RatedSample, RatingStep

__all__ = [
    "LEVELS",
    "RULES",
    "Cap",
    "Certainty",
    "CertaintyRule",
    "EvidenceBody",
    "Incoherence",
    "Level",
    "Override",
    "RatedSample",
    "RatingStep",
    "certainty",
]

_AUTHORED = CertaintyRule(
    "authored",
    "authored",
    "Authors may set another level with a reason and a source. No override lifts a cap: read more of the study instead.",
    "GRADE leaves the last judgement to people (five reasons down, three up: doi:10.1016/j.jclinepi.2018.01.012, Table 1); "
    "that it needs both and keeps the caps is a convention of this handbook.",
)

#: Every rule, in the order in which they are applied, for the Methods page.
RULES: tuple[CertaintyRule, ...] = (
    *_start.RULES,
    *_risk_of_bias.RULES,
    *_inconsistency.RULES,
    *_indirectness.RULES,
    *_imprecision.RULES,
    *_publication_bias.RULES,
    *_caps.RULES,
    _AUTHORED,
)


@dataclass(frozen=True)
class Override:
    """A level set by the authors; raises ``ValueError`` without a reason or without a reference."""

    level: Level
    because: str
    cites: tuple[str, ...]

    def __post_init__(self) -> None:
        if self.level not in LEVELS:
            raise ValueError(f"a level is one of {', '.join(LEVELS)}, not {self.level!r}")
        if not self.because.strip() or not any(key.strip() for key in self.cites):
            raise ValueError("an authored level needs both a reason and a reference")


@dataclass(frozen=True)
class Certainty:
    """A level, where it started, each step with its reason, and the caps that apply."""

    level: Level
    start: Level
    steps: tuple[RatingStep, ...]
    caps: tuple[Cap, ...]


def certainty(body: EvidenceBody, override: Override | None = None) -> Certainty:
    """Rate a body of evidence; the same body always gets the same level."""
    start, first = _start.start(body)
    steps = [
        first,
        _risk_of_bias.risk_of_bias(body, start),
        *_inconsistency.inconsistency(body),
        *_indirectness.indirectness(body),
        *_imprecision.imprecision(body),
        _publication_bias.publication_bias(body),
    ]
    caps = _caps.caps(body)
    ceiling = min((LEVELS.index(cap.at_most) for cap in caps), default=len(LEVELS) - 1)
    rank = min(max(0, LEVELS.index(start) + sum(step.change for step in steps)), ceiling)
    if override:
        authored = min(LEVELS.index(override.level), ceiling)
        held = (
            f", held at {LEVELS[authored]} by a cap" if LEVELS[authored] != override.level else ""
        )
        reason = f"Set to {override.level}{held} by the authors: {override.because.strip().rstrip('.')} ({', '.join(override.cites)})."
        steps.append(RatingStep("authored", "authored", authored - rank, reason))
        rank = authored
    return Certainty(LEVELS[rank], start, tuple(steps), caps)
