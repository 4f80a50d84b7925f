"""Reported numbers as the paper prints them, in one style."""

from __future__ import annotations

from ...catalog.entries import Difference, Value
from ...catalog.load import Catalog
from ...english import upper_first
from ..wording.names import Names
from .contrasts import StudyContrast, level

NO_BREAK = "\u00a0"


def reading(catalog: Catalog, names: Names, reported: StudyContrast) -> str:
    """One reported contrast in the study's own arms: ``Crate curl 14%, cable curl 9%; p < 0.01 (abstract)``."""
    arms = catalog.studies[reported.study].data.arms
    first, second = arms[reported.first.arm].called, arms[reported.second.arm].called
    if reported.first.part != reported.second.part:
        first, second = (
            names.part(side.part).removeprefix("the ") for side in (reported.first, reported.second)
        )
    of, against = reported.first.value, reported.second.value
    if of and against:
        text = f"{first} {value(of, reported.unit)}, {second} {value(against, reported.unit)}"
        if reported.direction == "neither":
            text += ", reported as no difference"
    else:
        told = {
            "more": f"more for {first} than for {second}",
            "less": f"less for {first} than for {second}",
            "neither": f"no difference reported between {first} and {second}",
        }
        text = told.get(reported.direction or "", f"{first} and {second}: no direction given")
        given = [
            f"{name} {value(v, reported.unit)}" for name, v in ((first, of), (second, against)) if v
        ]
        extra = contrast(reported)
        text = ", ".join([text, *given, *([extra] if extra else [])])
    tail = [p_value(reported), reported.site]
    return upper_first("; ".join([text, *[t for t in tail if t]])) + f" ({reported.at})"


def numbers(reported: StudyContrast) -> str | None:
    """The two sides' numbers, or the contrast's; ``None`` when the paper gives neither for both sides."""
    first, second = reported.first.value, reported.second.value
    if first and second:
        return f"{amount(first, reported.unit)} against {amount(second, reported.unit)}"
    return contrast(reported)


def value(given: Value, unit: str) -> str:
    """One value with its spread: ``14%``, ``61% MVIC (SD 12)``, ``40 to 44 cm3``."""
    spread = next(
        (
            f" ({name} {number(x)})"
            for name, x in (("SD", given.sd), ("SE", given.se))
            if x is not None
        ),
        "",
    )
    if given.ci95:
        spread = f" (95% interval {number(given.ci95[0])} to {number(given.ci95[1])})"
    if given.quartiles:
        spread = f" (quartiles {number(given.quartiles[0])} to {number(given.quartiles[1])})"
    return amount(given, unit) + spread


def amount(given: Value, unit: str) -> str:
    """One value without its spread."""
    if given.pre and given.post:
        return f"{number(given.pre.mean)} to {measured(given.post.mean, unit)}"
    return measured(level(given), "%" if given.change_percent is not None else unit)


def measured(x: float, unit: str) -> str:
    """A number with its unit, which no line break may part: ``14%``, ``3.6 cm\u00b2``."""
    return (
        number(x)
        if unit == "ratio"
        else f"{number(x)}{'' if unit.startswith('%') else NO_BREAK}{raised(unit)}"
    )


def raised(unit: str) -> str:
    """A unit with its power as a raised figure: ``cm\u00b2`` of ``cm2``."""
    return unit.replace("2", "\u00b2").replace("3", "\u00b3")


def number(x: float) -> str:
    """A number as printed: all its digits, no trailing zeros, a true minus sign."""
    return f"{x + 0.0:.15g}".replace("-", "\u2212")  # adding 0 takes the sign from a zero


def difference(reported: StudyContrast) -> str | None:
    """The difference that the paper prints itself, with its spread: ``difference 3.2 mm, 95% interval 0.4 to 6``."""
    given = reported.contrast
    return contrast(reported) if given and given.difference else None


def contrast(reported: StudyContrast) -> str | None:
    """The size of a difference that the paper states itself, turned to the question."""
    given = reported.contrast
    if given is None:
        return None
    sign = -1 if reported.flipped else 1
    if given.difference:
        return f"difference {measured(sign * given.difference.value, given.difference.unit)}{_around(given.difference, sign)}"
    if given.ratio:
        return f"ratio {number(given.ratio.value if sign > 0 else float(format(1 / given.ratio.value, '.3g')))}"
    if given.standardised:
        kind = (
            "standardised difference"
            if given.standardised.kind == "not named"
            else given.standardised.kind
        )
        return f"{kind} {number(sign * given.standardised.value)}"
    return None


def _around(difference: Difference, sign: int) -> str:
    """The spread of a printed difference, turned with it."""
    if difference.ci95:
        ends = sorted(sign * end for end in difference.ci95)
        return f", 95% interval {number(ends[0])} to {number(ends[1])}"
    return next(
        (
            f", {name} {number(x)}"
            for name, x in (("SE", difference.se), ("SD", difference.sd))
            if x is not None
        ),
        "",
    )


def has_spread(reported: StudyContrast) -> bool:
    """Whether the paper prints how far off its own numbers could be, in whatever unit."""
    if all(
        side.value and any((side.value.sd, side.value.se, side.value.ci95))
        for side in (reported.first, reported.second)
    ):
        return True
    given = reported.contrast
    if given is None:
        return False
    ratio = given.ratio.ci95 if given.ratio else None
    standardised = given.standardised.ci95 if given.standardised else None
    return bool(ratio or standardised or (given.difference and _around(given.difference, 1)))


def p_value(reported: StudyContrast) -> str | None:
    """``p = 0.037``, ``p < 0.001``, ``p > 0.05``; ``None`` when none is given."""
    given = reported.contrast
    if given is None:
        return None
    for sign, p in (("=", given.p), ("<", given.p_below), (">", given.p_above)):
        if p is not None:
            return f"p {sign} {p:g}"
    return None
