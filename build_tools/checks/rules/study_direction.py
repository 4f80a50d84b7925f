"""The direction a study is said to report agrees with the numbers beside it.

Why: the direction decides what the page says where no spread was reported; turned
round by a slip it would say the opposite of the paper.

Instead: check `of:`, `against:` and `favours:` with the source. Where the paper
itself favours the lower number, for instance after adjustment, move the adjusted
numbers into `difference:` or `ratio:`, or leave `favours:` out and say why in `note:`.

Fails: studies/wick2030.yaml 10:50 11:50
    results:
      - parts: [lantern/long-head]
        measure: mri-volume
        unit: "%"
        at: abstract
        values:
          seated: {change_percent: 14}
          standing: {change_percent: 9}
        contrasts:
          - {of: seated, against: standing, favours: against, test: between}
          - {of: seated, against: standing, favours: of, difference: {value: -5, unit: "%"}, test: between}

Passes: studies/wick2030.yaml
    results:
      - parts: [lantern/long-head]
        measure: mri-volume
        unit: "%"
        at: abstract
        values:
          seated: {change_percent: 14}
          standing: {change_percent: 9}
        contrasts:
          - {of: seated, against: standing, favours: of, difference: {value: 5, unit: "%"}, test: between}
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Contrast, Result, Value
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Directions that the printed numbers contradict."""
    for study in context.catalog.studies.values():
        for index, result in enumerate(study.data.results):
            for number, contrast in enumerate(result.contrasts):
                sign = {"of": 1, "against": -1}.get(contrast.favours or "", 0)
                for shown, advantage in _advantages(result, contrast):
                    if sign * advantage < 0:
                        yield Problem(
                            study.spot("results", index, "contrasts", number, "favours"),
                            f"`favours: {contrast.favours}`, but {shown}",
                            "check the source: exchange `of:` and `against:`, or correct the number or the direction",
                        )


def _advantages(result: Result, contrast: Contrast) -> Iterator[tuple[str, float]]:
    """How far each printed number puts `of` above `against` (below: negative), with words for it."""
    of, against = result.values.get(contrast.of), result.values.get(contrast.against)
    if of and against and not contrast.of_part:
        for kind in ("mean", "median", "change", "change_percent"):
            first, second = getattr(of, kind), getattr(against, kind)
            if first is not None and second is not None:
                yield (
                    f"{contrast.of} has {first:g} and {contrast.against} {second:g}",
                    first - second,
                )
        if (first := _gain(of)) is not None and (second := _gain(against)) is not None:
            yield (
                f"{contrast.of} changed by {first:.1%} and {contrast.against} by {second:.1%}",
                first - second,
            )
    if contrast.difference:
        yield f"the difference is {contrast.difference.value:g}", contrast.difference.value
    if contrast.ratio:
        yield f"the ratio is {contrast.ratio.value:g}", contrast.ratio.value - 1
    if contrast.standardised:
        yield (
            f"the standardised difference is {contrast.standardised.value:g}",
            contrast.standardised.value,
        )


def _gain(value: Value) -> float | None:
    """Relative change from before to after."""
    return (
        value.post.mean / value.pre.mean - 1
        if value.pre and value.post and value.pre.mean
        else None
    )
