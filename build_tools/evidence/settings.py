"""The handbook's conventions as the numbers the engine works with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from ..catalog.entries import CORRELATED, CorrelationKind, Correlations
from ..catalog.load import Catalog

End = Literal["lowest", "highest"]


@dataclass(frozen=True)
class Settings:
    """Values of the conventions. Margins and sizes are ratios above 1, correlations lie in [0, 1]."""

    margins: dict[str, float]
    """Outcome to the ratio below which two count as alike."""
    large: dict[str, float]
    """Outcome to the ratio from which a difference is large."""
    margin_length: float
    """Share of a muscle's own range below which two mean lengths count as alike."""
    correlations: Correlations
    moved: tuple[CorrelationKind, End] | None = None
    """One kind of correlation tried at an end of its range."""

    def correlation(self, kind: CorrelationKind, outcome: str, measure: str) -> float:
        """How alike two numbers of the same people are taken to be."""
        found = self.correlations.of(kind, outcome, measure)
        if self.moved is None or self.moved[0] != kind:
            return found.value
        return found.range[0] if self.moved[1] == "lowest" else found.range[1]

    def variations(self) -> list[Settings]:
        """The same settings with each kind of correlation at either end of its range."""
        return [
            replace(self, moved=(kind, end)) for kind in CORRELATED for end in ("lowest", "highest")
        ]


def settings(catalog: Catalog) -> Settings:
    """Read the conventions of a catalog whose handbook file is sound."""
    assert (
        catalog.handbook is not None
    )  # a broken handbook stops the flow before anything is computed
    c = catalog.handbook.data.conventions
    margins = {
        "growth": c.margin_growth.value,
        "activation": c.margin_activation.value,
        "strength": c.margin_strength.value,
    }
    large = {
        "growth": c.size_large_growth.value,
        "activation": c.size_large_activation.value,
        "strength": c.size_large_strength.value,
    }
    # Length comes from a model and architecture is only listed: neither is pooled, so as a ratio any margin serves.
    return Settings(
        margins={**margins, "length": margins["activation"], "architecture": margins["activation"]},
        large={**large, "length": large["activation"], "architecture": large["activation"]},
        margin_length=c.margin_length.value / 100,
        correlations=c.correlations,
    )
