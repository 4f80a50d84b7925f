"""A study's numbers are possible: intervals hold their value, spreads are not zero, counts fit.

Why: most slips in copying from a table give numbers that cannot be, and the build
would weigh them like any other.

Instead: compare the number with the source again. Leave out a spread that was not
reported; never write 0 for it.

Fails: studies/glow2031.yaml 1:24 8:32 9:31 9:39 11:65
    people: {n: 12, women: 13}
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values:
          seated: {mean: 61, ci95: [63, 70]}
          standing: {mean: 60, n: 13, sd: 0}
        contrasts:
          - {of: seated, against: standing, p_above: 0.05, p_below: 0.01, test: between}

Passes: studies/glow2031.yaml
    people: {n: 12, women: 6}
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values:
          seated: {mean: 61, ci95: [53, 70]}
          standing: {mean: 60, n: 12}
        contrasts:
          - {of: seated, against: standing, p_above: 0.05, test: between}
"""

from collections.abc import Iterator

from build_tools.catalog.entries import LEAST, Contrast, Study, Value
from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem

AGAIN = "compare it with the source; leave out what was not reported"


def check(context: Context) -> Iterator[Problem]:
    """Numbers that cannot be."""
    for study in context.catalog.studies.values():
        for path, message in _impossible(study.data):
            yield Problem(study.spot(*path), message, AGAIN)


def _impossible(study: Study) -> Iterator[tuple[Path, str]]:
    people = study.people.n
    if (study.people.women or 0) > people:
        yield ("people", "women"), f"{study.people.women} women among {people} people"
    for name, arm in study.arms.items():
        if (arm.n or 0) > people:
            yield ("arms", name, "n"), f"{arm.n} in this arm, of {people} people"
    for index, result in enumerate(study.results):
        for name, value in result.values.items():
            here = ("results", index, "values", name)
            if (value.n or 0) > people:
                yield (*here, "n"), f"{value.n} in this arm, of {people} people"
            yield from _value(here, value)
        for number, contrast in enumerate(result.contrasts):
            yield from _contrast(("results", index, "contrasts", number), contrast)


def _value(here: Path, value: Value) -> Iterator[tuple[Path, str]]:
    middle = next(
        (x for x in (value.mean, value.change, value.change_percent) if x is not None), None
    )
    yield from _spread(here, value, middle)
    yield from _range((*here, "quartiles"), value.quartiles, value.median)
    for time in ("pre", "post"):
        if moment := getattr(value, time):
            yield from _spread((*here, time), moment, moment.mean)


def _contrast(here: Path, contrast: Contrast) -> Iterator[tuple[Path, str]]:
    given = [kind for kind in ("p", "p_above", "p_below") if getattr(contrast, kind) is not None]
    between = contrast.p is None and (contrast.p_above or 0) < (contrast.p_below or 1)
    if len(given) > 1 and not between:
        yield (
            (*here, given[-1]),
            f"{' and '.join(f'`{kind}`' for kind in given)} do not fit together",
        )
    for kind in ("difference", "ratio", "standardised"):
        if number := getattr(contrast, kind):
            yield from _spread((*here, kind), number, number.value)


def _spread(here: Path, number: object, middle: float | None) -> Iterator[tuple[Path, str]]:
    for kind in ("sd", "se"):
        spread = getattr(number, kind, None)
        if spread is not None and spread < LEAST:
            yield (*here, kind), f"`{kind}` {spread:g} would mean that everybody was alike"
    yield from _range((*here, "ci95"), getattr(number, "ci95", None), middle)


def _range(
    here: Path, ends: list[float] | None, middle: float | None
) -> Iterator[tuple[Path, str]]:
    if ends and ends[1] - ends[0] < LEAST:
        yield here, f"`{here[-1]}` runs from {ends[0]:g} to {ends[1]:g}"
    elif ends and middle is not None and not ends[0] <= middle <= ends[1]:
        yield here, f"`{here[-1]}` from {ends[0]:g} to {ends[1]:g} does not hold {middle:g}"
