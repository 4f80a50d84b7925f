"""The handbook's conventions as the numbers the engine works with."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..catalog.load import Catalog


@dataclass(frozen=True)
class Settings:
    """Values of the conventions. Margins and sizes are ratios above 1, correlations lie in [0, 1]."""

    margins: dict[str, float]
    """Outcome to the ratio below which two count as alike."""
    large: dict[str, float]
    """Outcome to the ratio from which a difference is large."""
    margin_length: float
    """Share of a muscle's own range below which two mean lengths count as alike."""
    within_person: float
    pre_post: float
    between_measurements: float
    ranges: dict[str, tuple[float, float]]
    """Name of a correlation above to the range over which conclusions are tried."""

    def with_correlation(self, name: str, value: float) -> Settings:
        """The same settings with one correlation changed."""
        return replace(self, **{name: value})  # type: ignore[arg-type]


def settings(catalog: Catalog) -> Settings:
    """Read the conventions of a catalog whose handbook file is sound."""
    assert catalog.handbook is not None  # a broken handbook stops the flow before anything is computed
    c = catalog.handbook.data.conventions
    correlations = {"within_person": c.within_person_correlation, "pre_post": c.pre_post_correlation,
                    "between_measurements": c.between_measurement_correlation}
    margins = {"growth": c.margin_growth.value, "activation": c.margin_activation.value, "strength": c.margin_strength.value}
    large = {"growth": c.size_large_growth.value, "activation": c.size_large_activation.value, "strength": c.size_large_strength.value}
    # Length comes from a model and architecture is only listed: neither is pooled, so as a ratio any margin serves.
    return Settings(
        margins={**margins, "length": margins["activation"], "architecture": margins["activation"]},
        large={**large, "length": large["activation"], "architecture": large["activation"]},
        margin_length=c.margin_length.value / 100,
        within_person=correlations["within_person"].value, pre_post=correlations["pre_post"].value,
        between_measurements=correlations["between_measurements"].value,
        ranges={name: (c.range[0], c.range[1]) for name, c in correlations.items() if c.range})
