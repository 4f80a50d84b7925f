"""Generated passages of the Methods page on posture, length and load: the muscles with a model value and what they were held against."""

from __future__ import annotations

from dataclasses import dataclass

from ...catalog.entries import ModelMuscle, PublishedSource, SourceModel
from ...english import counted, listed
from ...movement.length import published
from ...movement.load.curve import HIGH
from ...movement.load.moments import CARRIED_BY_LEGS, MOVED_BY_LIMBS
from ...movement.posture.body import REFERENCE
from ..context import RenderContext
from ..templating import render


@dataclass(frozen=True)
class MuscleRow:
    """One muscle of the model: its range, its checks, and what they leave open."""

    muscle: ModelMuscle
    box: str
    passed: bool
    checks: tuple[published.Check, ...]

    @property
    def ratio(self) -> str:
        """``5 of 6 checks``."""
        return (
            f"{sum(check.passed for check in self.checks)} of {counted(len(self.checks), 'check')}"
        )


@dataclass(frozen=True)
class MovementPassage:
    """Everything the template shows."""

    body: str
    high: int
    legs: int
    limbs: int
    factor: float
    models: list[SourceModel]
    muscles: list[MuscleRow]
    left_out: list[tuple[str, str]]
    sources: dict[str, PublishedSource]


def lengths(shelf: RenderContext, uri: str) -> str:
    """What is computed, from what, how it was checked; without a model, that there is none."""
    model = shelf.catalog.model.data if shelf.catalog.model else None
    found = [_row(muscle) for muscle in published.checked(shelf.catalog).values()]
    return render(
        "methods_movement.html.jinja",
        page=MovementPassage(
            body=f"{REFERENCE.stature:.2f} m, {REFERENCE.mass:.0f} kg",
            high=round(100 * HIGH),
            legs=round(100 * CARRIED_BY_LEGS),
            limbs=round(100 * MOVED_BY_LIMBS),
            factor=published.FACTOR,
            models=list(model.models.values()) if model else [],
            muscles=found,
            left_out=[(out.name, out.because) for out in model.left_out] if model else [],
            sources=model.sources if model else {},
        ),
    )


def _row(checked: published.CheckedMuscle) -> MuscleRow:
    muscle = checked.grid.muscle
    box = listed(
        [
            f"{joint} {low:g}° to {high:g}°".replace("-", "\N{MINUS SIGN}")
            for joint, (low, high) in muscle.box.items()
        ]
    )
    return MuscleRow(muscle, box, checked.passes, checked.checks)
