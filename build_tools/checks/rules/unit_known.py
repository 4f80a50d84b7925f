"""Units stand in the list of their measure, and a difference has the unit of its result.

Why: numbers in two spellings of one unit would silently be taken for two kinds of
number, and a difference in another unit than its values would drop out of the pooling.

Instead: write the unit as vocabulary.yaml lists it for the measure. What a per cent
is of goes to `note:` or `phase:`; a result with directions only has no unit. A
difference in per cent, or one with its own `start:`, may have another unit.

Fails: studies/glow2031.yaml 4:11
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% mvic"
        at: Table 2
        values: {seated: {mean: 61, sd: 12}, standing: {mean: 60, sd: 11}}

Fails: studies/wick2030.yaml 8:85
    results:
      - parts: [lantern/long-head]
        measure: mri-volume
        unit: "%"
        at: abstract
        values: {seated: {change_percent: 14}, standing: {change_percent: 9}}
        contrasts:
          - {of: seated, against: standing, test: between, difference: {value: 5, unit: points}}

Fails: studies/glow2031.yaml 8:85
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values: {seated: {mean: 61, sd: 12}, standing: {mean: 60, sd: 11}}
        contrasts:
          - {of: seated, against: standing, test: between, difference: {value: 1, unit: mV}}

Passes: studies/glow2031.yaml
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values: {seated: {mean: 61, sd: 12}, standing: {mean: 60, sd: 11}}
"""

from collections.abc import Iterator

from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem, suggest

#: A difference in per cent may stand beside values in any unit.
PERCENT = "%"


def check(context: Context) -> Iterator[Problem]:
    """Units that their measure does not list."""
    measures = context.catalog.vocabulary.data.measures if context.catalog.vocabulary else {}
    for study in context.catalog.studies.values():
        for index, result in enumerate(study.data.results):
            if result.measure not in measures:
                continue
            here: Path = ("results", index)
            differences = [
                (contrast.difference, (*here, "contrasts", number, "difference", "unit"))
                for number, contrast in enumerate(result.contrasts)
                if contrast.difference
            ]
            given = [(result.unit, (*here, "unit"), True)] if result.unit else []
            units = measures[result.measure].units
            given += [
                (
                    found.unit,
                    path,
                    found.unit in (result.unit, PERCENT)
                    or found.start is not None
                    or result.unit not in units,
                )
                for found, path in differences
            ]
            for unit, path, fits in given:
                if unit not in units:
                    yield Problem(
                        study.spot(*path),
                        f"`{unit}` is no unit of {result.measure}",
                        suggest(unit, units, f"write one of: {', '.join(units)}"),
                    )
                elif not fits:
                    yield Problem(
                        study.spot(*path),
                        f"this difference is in {unit}, and its result in {result.unit}",
                        f"write it in {result.unit}, or give its `start:` in {unit}",
                    )
