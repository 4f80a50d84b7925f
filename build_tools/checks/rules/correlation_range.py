"""A correlation lies within the range over which it is tried.

Why: the conclusions are tried at both ends of the range; a value outside it would be
stranger than anything that was tried.

Instead: write the lowest and the highest plausible correlation, in that order, around
the value.

Fails: handbook.yaml 20:46 22:70
    conventions:
      review_interval: {value: 24, unit: months, means: Invented., common_practice: Invented.}
      margin_growth: {value: 1.02, means: Invented., common_practice: Invented.}
      margin_activation: {value: 1.1, means: Invented., common_practice: Invented.}
      margin_strength: {value: 1.05, means: Invented., common_practice: Invented.}
      margin_length: {value: 10, unit: "% of the muscle's own range", means: Invented., common_practice: Invented.}
      size_large_growth: {value: 1.1, means: Invented., common_practice: Invented.}
      size_large_activation: {value: 1.5, means: Invented., common_practice: Invented.}
      size_large_strength: {value: 1.2, means: Invented., common_practice: Invented.}
      spread_growth: {value: 0.03, means: Invented., common_practice: Invented.}
      spread_activation: {value: 0.2, means: Invented., common_practice: Invented.}
      spread_strength: {value: 0.08, means: Invented., common_practice: Invented.}
      effect_growth: {value: 0.06, means: Invented., common_practice: Invented.}
      effect_activation: {value: 0.6, means: Invented., common_practice: Invented.}
      effect_strength: {value: 0.15, means: Invented., common_practice: Invented.}
      length_slope: {value: 0.05, means: Invented., common_practice: Invented.}
      length_slope_sd: {value: 0.05, means: Invented., common_practice: Invented.}
      correlations:
        before_after:
          - {outcome: growth, value: 0.8, range: [0.85, 0.95], common_practice: Invented.}
          - {outcome: strength, value: 0.8, range: [0.5, 0.95], common_practice: Invented.}
          - {outcome: growth, measures: [mri-volume], value: 0.4, range: [0.9, 0.1], common_practice: The wrong way round.}
        arms:
          - {outcome: growth, value: 0.5, range: [0.3, 0.9], common_practice: Invented.}
          - {outcome: activation, value: 0.5, range: [0.3, 0.9], common_practice: Invented.}
          - {outcome: strength, value: 0.5, range: [0.3, 0.9], common_practice: Invented.}
        parts:
          - {outcome: growth, value: 0.5, range: [0.3, 0.9], common_practice: Invented.}
          - {outcome: activation, value: 0.5, range: [0.3, 0.9], common_practice: Invented.}
          - {outcome: strength, value: 0.5, range: [0.3, 0.9], common_practice: Invented.}
        sites:
          - {outcome: growth, value: 1, range: [0.5, 1], common_practice: Invented.}
          - {outcome: activation, value: 1, range: [0.5, 1], common_practice: Invented.}
          - {outcome: strength, value: 1, range: [0.5, 1], common_practice: Invented.}

Passes: handbook.yaml
    licence: CC0-1.0
"""

from collections.abc import Iterator

from build_tools.catalog.entries import CORRELATED
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Correlations outside their range, and ranges the wrong way round."""
    handbook = context.catalog.handbook
    if handbook is None:
        return
    for kind in CORRELATED:
        for index, correlation in enumerate(getattr(handbook.data.conventions.correlations, kind)):
            low, high = correlation.range
            if not low <= correlation.value <= high:
                yield Problem(
                    handbook.spot("conventions", "correlations", kind, index, "range"),
                    f"{correlation.value:g} does not lie between {low:g} and {high:g}",
                    "write the lowest and the highest plausible correlation around the value",
                )
