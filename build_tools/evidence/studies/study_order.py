"""The one order in which a study's arms, results and contrasts are taken, whatever order its file has.

What a study says must not hang on who stands first in the file: sums of floating-point
numbers, ties and "the first that fits" all depend on order.
"""

from __future__ import annotations

from ...catalog.entries import Contrast, Result, Study


def treatments(study: Study) -> dict[str, str]:
    """Arm -> what it did (an exercise, or a version of one), sorted by arm; controls are left out."""
    return {id: arm.treatment for id, arm in sorted(study.arms.items()) if arm.treatment}


def results(study: Study) -> list[tuple[int, Result]]:
    """Each result with its index in the file."""
    return sorted(
        enumerate(study.results),
        key=lambda pair: (pair[1].measure, pair[1].parts, pair[1].model_dump_json(), pair[0]),
    )


def contrasts(result: Result) -> list[Contrast]:
    """The contrasts of a result."""
    found = sorted(result.contrasts, key=_sides)
    if len(set(map(_sides, found))) == len(found):
        return found
    return sorted(found, key=lambda c: (_sides(c), c.model_dump_json()))


def _sides(contrast: Contrast) -> tuple[str, str, str, str]:
    return contrast.of, contrast.against, contrast.of_part or "", contrast.against_part or ""
