"""Short sentences after the main one: what a reader must know of the studies to take it as it was meant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from ...catalog.entries import Test
from ...catalog.entries.study import TESTED
from ...english import lower_first, upper_first
from ..terms import Answer
from .amounts import in_words
from .clauses import Compared, tested
from .names import Names
from .turning import once

#: How many studies' own ways of doing an exercise are told.
_TOLD = 2
_NO_TEST = "no test of the two was read"
#: What stands behind a direction of which no test of the two sides was read. What was not read may still have been done.
_UNTESTED: dict[Test, str] = {
    "within": "each side was only compared with its own start",
    "ranking": f"that is from a ranking; {_NO_TEST}",
    "omnibus": f"one test took all together; {_NO_TEST}",
}


def remarks(names: Names, answer: Answer, contrast: Compared, told: str) -> Iterator[str]:
    """The sentences that follow the main one, ``told``, in the order of what changes its meaning most."""
    if answer.borrowed and "could be" in told.replace("could be chance", ""):
        yield "The range is taken from similar studies."
    if paper := "; ".join(text for text in _paper(answer) if text not in told):
        lead = "The paper itself found a difference" if _at_odds(answer, told) else "In the paper"
        yield f"{lead}: {paper}."
    if answer.conflict and "opposite ways" not in told:
        yield "Studies point opposite ways."
    if no_test := _no_test(answer, told):
        yield no_test
    if answer.path == "indirect" and "through other exercises" not in told:
        yield "No study compared the two; this comes through other exercises."
    elif answer.path == "direct and indirect":
        yield "Part of this comes through other exercises."
    yield from _measured(names, answer)
    if answer.estimate and answer.sized:
        if answer.directions.total:
            yield f"Without a number, {counts(answer, contrast, ' further')}."
    elif answer.side:
        yield from _others(answer, contrast)
    if answer.finding != "not studied":
        yield from _further_untested(answer, contrast)
    yield from _aside(answer, contrast)
    yield from _as_tested(names, answer)


def _paper(answer: Answer) -> Iterator[str]:
    """What the one study prints of the two, but for what the sentence tells of it in other words."""
    # Gains and ratios are told in whole per cent already.
    as_told = bool(answer.estimate) and answer.sized
    if (printed := answer.printed) and not (
        as_told and (answer.gains or printed.startswith("ratio "))
    ):
        yield once(printed)
    if answer.difference and answer.difference != answer.printed:
        yield answer.difference
    if answer.p:
        yield answer.p


def _at_odds(answer: Answer, told: str) -> bool:
    """Whether the paper's own test left out no difference where the sentence does not."""
    sign, _, p = (answer.p or "").removeprefix("p ").partition(" ")
    significant = (sign == "=" and float(p) < 0.05) or (sign == "<" and float(p) <= 0.05)
    return significant and (told.startswith("No clear difference") or "could be chance" in told)


def _others(answer: Answer, contrast: Compared) -> Iterator[str]:
    """What the other studies say, where none has a number and the sentence told those on one side."""
    for n, what in _said(answer, contrast)[bool(answer.directions.more) :]:
        yield f"{upper_first(in_words(n))} reported {what}."


def _said(answer: Answer, contrast: Compared) -> list[tuple[int, str]]:
    """How many studies without a number say what, those for the first side first."""
    said = answer.directions
    kinds = (
        (said.more, f"more {contrast.whose}"),
        (said.less, f"more {contrast.other}"),
        (said.neither, "no difference"),
        (said.mixed, "different answers in different measurements"),
    )
    return [(n, what) for n, what in kinds if n]


def _studies(n: int) -> str:
    return "study" if n == 1 else "studies"


def counts(answer: Answer, contrast: Compared, further: str = "") -> str:
    """Which studies say what, as a clause: ``one study reported more with the crate curl, one no difference``."""
    (n, what), *rest = _said(answer, contrast)
    first = f"{in_words(n)}{further} {_studies(n)} reported {what}"
    return ", ".join([first, *(f"{in_words(n)} {what}" for n, what in rest)])


def _no_test(answer: Answer, told: str) -> str | None:
    """That nobody tested the one side against the other, as far as was read."""
    if answer.tests & set(TESTED) or answer.p or answer.path == "indirect" or _NO_TEST in told:
        return None
    if not answer.tests and (answer.finding in ("alike", "unclear") or not answer.studies):
        return None
    if answer.finding == "not studied" and answer.untested and not answer.printed:
        return None
    alone = next(iter(answer.tests)) if len(answer.tests) == 1 else "none"
    return f"{upper_first(_UNTESTED.get(alone, _NO_TEST))}."


def _measured(names: Names, answer: Answer) -> Iterator[str]:
    one = len(answer.parts) == 1
    # A lift is the test of no part by itself, so nothing is said of parts.
    if not answer.strength_test:
        if answer.measured == "whole":
            yield f"The whole muscle was measured, not {'this part' if one else 'these parts'}."
        elif answer.together:
            yield f"Measured as one with {names.parts(answer.together)}."
        elif answer.measured == "together" and not one:
            yield "They were measured as one."
    if answer.phase:
        yield f"Measured: {lower_first(answer.phase)}."
    if (test := answer.strength_test) and lower_first(test) not in tested(test):
        yield f"The test: {lower_first(test).rstrip('.')}."


def _reasons(answer: Answer) -> Counter[tuple[str, str]]:
    """Direction and reason why it is no test -> how many studies; reasons that read alike are one."""
    return Counter((way, _UNTESTED.get(test, _NO_TEST)) for way, test in answer.untested)


def pointing(answer: Answer, contrast: Compared) -> str:
    """What studies show of which no test was read: ``one study pointed to the crate curl, but no test of the two was read``."""
    told = []
    for (way, why), n in _reasons(answer).items():
        side = contrast.first if way == "more" else contrast.second
        what = "told no difference" if way == "neither" else f"pointed to {side}"
        told.append(f"{in_words(n)} {_studies(n)} {what}, but {why}")
    return "; ".join(told)


def _further_untested(answer: Answer, contrast: Compared) -> Iterator[str]:
    """``One further study points the same way, but no test of the two was read.``"""
    for (way, why), n in _reasons(answer).items():
        points = "points" if n == 1 else "point"
        if way == "neither":
            what = "told no difference"
        elif answer.side:
            what = f"{points} {'the same way' if way == answer.side else 'the other way'}"
        else:
            what = f"{points} to {contrast.first if way == 'more' else contrast.second}"
        yield f"{upper_first(in_words(n))} further {_studies(n)} {what}, but {why}."


def _aside(answer: Answer, contrast: Compared) -> Iterator[str]:
    """``One further study measured thickness and found more with the crate curl.``"""
    for (way, measure), n in Counter(answer.aside).items():
        if way == "neither":
            what = "reported no difference"
        else:
            what = f"found more {contrast.whose if way == 'more' else contrast.other}"
        yield f"{upper_first(in_words(n))} further {_studies(n)} measured {measure} and {what}."


def _as_tested(names: Names, answer: Answer) -> Iterator[str]:
    """``As tested: the seated row, held still for 10 s.``"""
    studies = Counter(study for study in answer.as_tested if study)
    of = len(answer.as_tested)
    for study, n in list(studies.items())[:_TOLD]:
        where = "" if n == of else f" in {in_words(n)} of {in_words(of)} studies"
        ways = dict.fromkeys(way.rstrip(".") for _, way in study)
        if len(study) > 1 and len(ways) == 1:
            yield f"As tested{where}, both: {lower_first(next(iter(ways)))}."
        else:
            each = (f"{names.exercise(id)}, {lower_first(way)}".rstrip(".") for id, way in study)
            yield f"As tested{where}: {'; '.join(each)}."
    if more := sum(list(studies.values())[_TOLD:]):
        yield f"In {in_words(more)} more, an exercise was done otherwise than here."
