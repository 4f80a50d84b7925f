"""Changes and effects are of a size that training can have.

Why: a point or a digit too many (1400 for 14.00) gives a number that the build would
weigh like any other. The largest sizes are conventions of the handbook
(`size_impossible_growth` and its like): common practice, well beyond what the
catalog's own studies print.

Instead: compare the number with the source. Where the source does print it, let it
through in exceptions.yaml with that reason.

Fails: studies/wick2030.yaml 7:15 8:17
    results:
      - parts: [lantern/long-head]
        measure: mri-volume
        unit: "%"
        at: abstract
        values:
          seated: {change_percent: 1400}
          standing: {change_percent: -100}

Fails: studies/glow2031.yaml 8:17 10:63
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values:
          seated: {mean: 61, sd: 12}
          standing: {mean: 1, sd: 11}
        contrasts:
          - {of: seated, against: standing, test: between, ratio: {value: 30}}

Passes: studies/wick2030.yaml
    results:
      - parts: [lantern/long-head]
        measure: mri-volume
        unit: "%"
        at: abstract
        values:
          seated: {change_percent: 14}
          standing: {pre: {mean: 300}, post: {mean: 310}}
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Contrast, Convention, Result, Value
from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem

_AGAIN = "compare it with the source: a point or a digit may have slipped"


def check(context: Context) -> Iterator[Problem]:
    """Sizes beyond the conventions. A convention that the handbook leaves out is not applied."""
    handbook = context.catalog.handbook
    if handbook is None:
        return
    conventions = handbook.data.conventions
    for study in context.catalog.studies.values():
        for index, result in enumerate(study.data.results):
            limit: Convention | None = getattr(
                conventions, f"size_impossible_{context.outcomes.get(result.measure)}", None
            )
            for path, shown, ratio in [*_sizes(result), *_differences(result)] if limit else []:
                if limit and not 1 / limit.value <= ratio <= limit.value:
                    yield Problem(
                        study.spot("results", index, *path),
                        f"{shown} is beyond what is taken to be possible (a ratio of {limit.value:g})",
                        _AGAIN,
                    )
            effect = conventions.size_impossible_standardised
            for number, contrast in enumerate(result.contrasts):
                if (
                    effect
                    and contrast.standardised
                    and abs(contrast.standardised.value) > effect.value
                ):
                    yield Problem(
                        study.spot("results", index, "contrasts", number, "standardised"),
                        f"a standardised difference of {contrast.standardised.value:g} is beyond what is taken to be possible"
                        f" ({effect.value:g})",
                        _AGAIN,
                    )


def _sizes(result: Result) -> Iterator[tuple[Path, str, float]]:
    """Where each number of an arm stands, how it is told, and the ratio that it means."""
    levels = {arm: level for arm, value in result.values.items() if (level := _level(value))}
    highest = max(levels.values(), default=0)
    for arm, value in result.values.items():
        if value.change_percent is not None:
            yield (
                ("values", arm),
                f"a change of {value.change_percent:g} %",
                max(0.0, 1 + value.change_percent / 100),
            )
        if value.pre and value.post and value.pre.mean > 0:
            yield (
                ("values", arm),
                f"from {value.pre.mean:g} to {value.post.mean:g}",
                max(0.0, value.post.mean / value.pre.mean),
            )
        if levels.get(arm, 0) > 0 and levels[arm] < highest:
            yield ("values", arm), f"{levels[arm]:g} beside {highest:g}", levels[arm] / highest


def _differences(result: Result) -> Iterator[tuple[Path, str, float]]:
    for number, contrast in enumerate(result.contrasts):
        if contrast.ratio:
            yield (
                ("contrasts", number, "ratio"),
                f"a ratio of {contrast.ratio.value:g}",
                contrast.ratio.value,
            )
        if _in_percent(contrast):
            value = contrast.difference.value  # type: ignore[union-attr]
            yield (
                ("contrasts", number, "difference"),
                f"a difference of {value:g} %",
                1 + abs(value) / 100,
            )


def _in_percent(contrast: Contrast) -> bool:
    return contrast.difference is not None and contrast.difference.unit.startswith("%")


def _level(value: Value) -> float | None:
    return value.mean if value.mean is not None else value.median
