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
    spreads: dict[str, float]
    """Outcome to the scale of the half-normal prior on the spread between studies (log ratio)."""
    effects: dict[str, float]
    """Outcome to the scale of the normal prior on a log ratio, used only where a report gives no number."""
    slope: tuple[float, float]
    """Mean and standard deviation of the prior on growth (log ratio) for a whole range of muscle length."""
    conversions: dict[str, float]
    """Dimension of a measure of growth to the exponent that makes it the growth of an area, where one is declared."""
    moved: tuple[CorrelationKind, End] | None = None
    """One kind of correlation tried at an end of its range."""

    def correlation(self, kind: CorrelationKind, outcome: str, measure: str) -> float:
        """How alike two numbers of the same people are taken to be."""
        found = self.correlations.of(kind, outcome, measure)
        if self.moved is None or self.moved[0] != kind:
            return found.value
        return found.range[0] if self.moved[1] == "lowest" else found.range[1]

    def conversion(self, dimension: str) -> float | None:
        """The exponent that turns a log growth of this dimension into that of an area; ``None`` where none is declared."""
        return self.conversions.get(dimension)

    def with_prior(self, factor: float) -> Settings:
        """The same settings with ``factor`` times as much spread between studies expected."""
        return replace(
            self, spreads={outcome: factor * scale for outcome, scale in self.spreads.items()}
        )

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
    spreads = {
        "growth": c.spread_growth.value,
        "activation": c.spread_activation.value,
        "strength": c.spread_strength.value,
    }
    effects = {
        "growth": c.effect_growth.value,
        "activation": c.effect_activation.value,
        "strength": c.effect_strength.value,
    }
    conversions = {
        dimension: found.value
        for dimension, found in (
            ("thickness", c.conversion_thickness),
            ("volume", c.conversion_volume),
        )
        if found is not None
    }
    # Length comes from a model and architecture is only listed: neither is pooled, so as a ratio any margin serves.
    return Settings(
        margins=_complete(margins),
        large=_complete(large),
        margin_length=c.margin_length.value / 100,
        correlations=c.correlations,
        spreads=_complete(spreads),
        effects=_complete(effects),
        slope=(c.length_slope.value, c.length_slope_sd.value),
        conversions=conversions,
    )


def _complete(of: dict[str, float]) -> dict[str, float]:
    """With a value for the outcomes that are never pooled."""
    return {**of, "length": of["activation"], "architecture": of["activation"]}
