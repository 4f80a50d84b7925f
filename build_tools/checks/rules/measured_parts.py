"""A result says whether one part, several together or a whole muscle was measured.

Why: a number over two parts is one finding on both together, and a number on a
whole muscle says nothing of where in it. Told as if a part had been measured, it
would count twice, or for a part that nobody looked at.

Instead: write `measured: part` with exactly one part, `measured: together` with all
the parts that the one electrode or scan covers, or `measured: whole` with the muscle.

Fails: studies/glow2031.yaml 2:5 6:5 11:5
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        at: Table 2
        contrasts: [{of: seated, against: standing, favours: of, test: between}]
      - parts: [lantern/short-head, lantern/long-head]
        measured: part
        measure: surface-emg
        at: Table 2
        contrasts: [{of: seated, against: standing, favours: of, test: between}]
      - parts: [lantern/short-head]
        measured: whole
        measure: surface-emg
        at: Table 2
        contrasts: [{of: seated, against: standing, favours: of, test: between}]

Passes: studies/glow2031.yaml
    results:
      - parts: [lantern/short-head, lantern/long-head]
        measured: together
        measure: surface-emg
        at: Table 2
        contrasts: [{of: seated, against: standing, favours: of, test: between}]
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Result
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Results that do not say what was measured, or whose parts do not fit what they say."""
    for study in context.catalog.studies.values():
        for index, result in enumerate(study.data.results):
            fitting = _fitting(result)
            if result.measured is None:
                yield Problem(
                    study.spot("results", index),
                    "this result does not say whether a part, several together or a whole muscle "
                    "was measured",
                    f"add `measured: {fitting[0]}`, if that is what the paper did",
                )
            elif result.measured not in fitting:
                yield Problem(
                    study.spot("results", index),
                    f"`measured: {result.measured}`, but its parts are {', '.join(result.parts)}",
                    "name the one part, all parts that the number covers together, or the whole muscle",
                )


def _fitting(result: Result) -> list[str]:
    whole = all("/" not in ref for ref in result.parts)
    if len(result.parts) > 1:
        return ["together", "whole"] if whole else ["together"]
    return ["whole"] if whole else ["part"]
