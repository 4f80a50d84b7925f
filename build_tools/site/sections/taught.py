"""What is commonly taught, as pages show it: the teaching in a sentence, what was found, and what would settle it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal, NamedTuple

from ...english import counted, listed, upper_first
from ...evidence.claims.comparison import behind, is_one_finding
from ...evidence.claims.conclusions import Comparison
from ...evidence.claims.contradictions import same_question
from ...evidence.claims.teachings import PartAnswer, Teaching, TeachingState, teachings
from ...evidence.terms import Claimed
from ...evidence.wording import figures, sentences
from ...evidence.wording.amounts import TIMES_FROM, amount, percent
from ...evidence.wording.amounts import people as counted_people
from ...evidence.wording.clauses import contrast
from ...evidence.wording.turning import once as unit_once
from ...evidence_map.marks import Fill, Mark, MarkKind
from ..context import Link, PageContext, RenderContext, once
from . import outlook

_DIRECTIONS: dict[Claimed, Literal["more", "less", "alike"]] = {
    "more": "more",
    "less": "less",
    "similar": "alike",
}
_MARKED: dict[str, MarkKind] = {"growth": "growth", "activation": "activation"}
#: What is known of a teaching on all its parts alike, before the numbers.
_LEADS: dict[PartAnswer, str] = {
    "conflict": "Studies point opposite ways",
    "leans": "Leans that way",
    "leans away": "Leans the other way",
    "unclear": "No clear difference",
}
#: What is known of some parts, where parts answer differently.
_FOR: dict[PartAnswer, str] = {
    "holds": "holds for {}",
    "fails": "fails for {}",
    "conflict": "studies point opposite ways on {}",
    "leans": "leans that way for {}",
    "leans away": "leans the other way for {}",
    "unclear": "no clear difference for {}",
    "printed": "never tested on {}",
    "untested": "nobody tested {}",
}
#: Outcome -> what would test a teaching that nobody tested: what to compare and measure.
_TESTS = {
    "growth": "Train with each; scan it before and after.",
    "strength": "Train with each; test strength before and after.",
    "activation": "Record it in both, in one session.",
    "length": "A model of its length would tell.",
}
_WITHIN = {
    "growth": "Train with it; scan both before and after.",
    "strength": "Train with it; test both before and after.",
    "activation": "Record both in one session.",
    "length": "No model can compare two parts.",
}


class StudyLink(NamedTuple):
    """A study behind an answer: its table, and how many people it had."""

    link: Link
    people: int


@dataclass(frozen=True)
class TaughtView:
    """One teaching on a page."""

    state: TeachingState
    mark: Mark | None
    """What was found; None of strength, which no mark stands for."""
    says: str
    """What is taught, in one sentence."""
    href: str
    """The claim that it stands with."""
    found: str
    """What was found, in one sentence; empty where nobody tested it."""
    studies: list[StudyLink]
    certainty: str
    settles: str
    """What would settle it, in one sentence; empty where a model answers it."""
    muscle: str


@once
def all_taught(shelf: RenderContext) -> list[Teaching]:
    """Every teaching of the catalog, each once."""
    return teachings(shelf.catalog, shelf.conclusions, shelf.settings)


def taught_of(desk: PageContext, ref: str) -> list[Link]:
    """What is commonly taught of a part (or a muscle as a whole) and nobody tested: short statements that lead to their claims."""
    return [
        Link(
            sentences.taught_in_brief(
                desk.shelf.names, teaching.question, _DIRECTIONS[teaching.says]
            ),
            _href(desk, teaching),
        )
        for teaching in all_taught(desk.shelf)
        if ref in teaching.parts and teaching.state == "untested"
    ]


def view(desk: PageContext, teaching: Teaching) -> TaughtView:
    """One teaching as seen from one page."""
    names, asked = desk.shelf.names, teaching.question
    told = sentences.claimed(names, asked, teaching.parts, _DIRECTIONS[teaching.says])
    first = teaching.comparisons[0]
    tested = teaching.state in ("holds", "fails", "mixed", "open")
    return TaughtView(
        state=teaching.state,
        mark=mark(teaching),
        says=f"{upper_first(told)}.",
        href=_href(desk, teaching),
        found=_found(desk.shelf, teaching),
        studies=_studies(desk, teaching) if tested else [],
        certainty=_certainty(teaching) if teaching.state in ("holds", "fails", "mixed") else "",
        settles=_settles(desk.shelf, teaching),
        muscle=(asked.first if asked.within else first.question.part).partition("/")[0],
    )


def mark(teaching: Teaching) -> Mark | None:
    """What was found of it as drawn on the evidence map; of parts that answer differently the words say which does what."""
    kind = _MARKED.get(teaching.outcome)
    if teaching.state == "untested":
        return Mark("taught")
    if teaching.state == "model":
        return Mark("length")
    return Mark(kind, _fill(teaching)) if kind else None


def _fill(teaching: Teaching) -> Fill:
    answers = set(teaching.answers)
    if "conflict" in answers or not answers & {"holds", "leans"} or teaching.says == "similar":
        return "no more"
    if answers == {"holds"}:
        return "found"
    alone = all(c.measured == "part" for c in teaching.comparisons)
    return "hinted" if alone else "wider"


def _href(desk: PageContext, teaching: Teaching) -> str:
    return desk.exercise(teaching.exercise, f"claim-{teaching.index + 1}").href


def _found(shelf: RenderContext, teaching: Teaching) -> str:
    """``Two studies, 75 people: about 18% against 11%.``; where parts answer differently, which says what."""
    if teaching.state == "untested":
        return _only_activity(shelf, teaching)
    if teaching.state == "model":
        return _modelled(teaching)
    by_part = zip(teaching.answers, teaching.comparisons, strict=True)
    runs = [
        (said, [c for _, c in group]) for said, group in groupby(by_part, key=lambda pair: pair[0])
    ]
    if len(runs) > 1:
        each = [
            _FOR[said].format(shelf.names.parts([c.question.part for c in group]))
            for said, group in runs
        ]
        return _sentence("; ".join(each))
    [(said, group)] = runs
    first = group[0]
    one = said != "conflict" and (len(group) == 1 or is_one_finding(group))
    numbers = _numbers(shelf, first) if one else ""
    lead = _LEADS.get(said, "")
    if teaching.says == "similar" and said == "leans away":
        lead = "Leans to a difference"
    support = counted_people(first.people) if first.people else ""
    told = ": ".join(filter(None, (support, numbers)))
    return " ".join(f"{text}." for text in (lead, upper_first(told)) if text)


def _modelled(teaching: Teaching) -> str:
    """What the model of muscle lengths makes of it."""
    found = set(teaching.answers) - {"untested"}
    if found == {"agrees"}:
        return "The model agrees."
    return "The model says otherwise." if found == {"differs"} else "The model agrees in part."


def _only_activity(shelf: RenderContext, teaching: Teaching) -> str:
    """That one session was tested where growth is taught, which does not answer it."""
    if teaching.outcome != "growth":
        return ""
    asked = [replace(c.question, outcome="activation") for c in teaching.comparisons]
    known = {same_question(question) for question in asked} & _recorded(shelf)
    return "Only activity in one session was tested." if known else ""


@once
def _recorded(shelf: RenderContext) -> set[tuple[object, ...]]:
    """Questions on activation that studies answer."""
    return {
        same_question(c.question)
        for field in shelf.conclusions.fields.values()
        if field.outcome == "activation"
        for c in field.comparisons
        if c.finding != "not studied"
    }


def _numbers(shelf: RenderContext, comparison: Comparison) -> str:
    """``about 18% against 11%``, ``61% against 40% MVIC``, ``12% more``; nothing where only a direction is known."""
    estimate = comparison.estimate if comparison.sized else None
    if comparison.gains and estimate and figures.fits(comparison.gains, estimate):
        return figures.gained(comparison.gains, estimate).partition(" (")[0]
    rows = behind(comparison)
    printed = rows[0].printed if len(rows) == 1 else None
    if printed and " against " in printed:
        return unit_once(printed)
    if len(rows) == 1 and rows[0].difference:
        return rows[0].difference
    if estimate is None:
        return ""
    if not 1 / TIMES_FROM < estimate.ratio < TIMES_FROM or estimate.ratio == 1:
        return amount(estimate.ratio)
    sides = contrast(shelf.names, comparison.question, (comparison.question.part,))
    return f"{percent(estimate.ratio)} {sides.larger if estimate.ratio > 1 else sides.smaller}"


def _studies(desk: PageContext, teaching: Teaching) -> list[StudyLink]:
    """The studies behind it, each at the first of its results."""
    found: dict[str, StudyLink] = {}
    for comparison in teaching.comparisons:
        for row in behind(comparison):
            if row.direction or row.mixed or row.weighed:
                link = desk.source(row.study, row.results[0] if row.results else None)
                found.setdefault(row.study, StudyLink(link, row.people))
    return list(found.values())


def _certainty(teaching: Teaching) -> str:
    levels = ("very low", "low", "moderate", "high")
    found = [c.certainty.level for c in teaching.comparisons if c.certainty]
    return min(found, key=levels.index) if found else ""


def _settles(shelf: RenderContext, teaching: Teaching) -> str:
    """What would settle it: people, or what to compare and measure."""
    if teaching.state == "model":
        return ""
    if teaching.state == "untested":
        if "printed" in teaching.answers:
            return "Numbers are printed for both; what is missing is a test of the two."
        return (_WITHIN if teaching.question.within else _TESTS)[teaching.outcome]
    weighed = [
        c
        for said, c in zip(teaching.answers, teaching.comparisons, strict=True)
        if c.outlook and (said not in ("holds", "fails") or teaching.state in ("holds", "fails"))
    ]
    if not weighed:
        return ""
    # What was not measured alone comes first, as no number of people mends that.
    most = max(weighed, key=lambda c: (c.measured != "part", c.outlook.chance if c.outlook else 0))
    return _sentence(outlook.briefly(most))


def _sentence(text: str) -> str:
    return f"{upper_first(text)}." if text else ""


#: State -> its words, those that were answered first.
STATES: dict[TeachingState, str] = {
    "holds": "Holds",
    "fails": "Fails",
    "mixed": "Mixed",
    "open": "Tested, still open",
    "untested": "Nobody tested it",
    "model": "Answered by a model of length",
}


def counts(taught: list[Teaching]) -> str:
    """``Of 175 common teachings, 9 hold ...``: how many are in which state, in one or two sentences."""
    number = {state: sum(t.state == state for t in taught) for state in STATES}
    studied = len(taught) - number["model"]

    def verb(n: int, one: str, many: str) -> str:
        return f"{n or 'none'} {one if n in (0, 1) else many}"

    told = listed(
        [
            verb(number["holds"], "holds so far", "hold so far"),
            verb(number["fails"], "fails", "fail"),
            verb(number["mixed"], "is mixed", "are mixed"),
            verb(number["open"], "was tested and is still open", "were tested and are still open"),
        ]
    )
    text = f"Of {counted(studied, 'common teaching')}, {told}; nobody tested {number['untested'] or 'none'}."
    if n := number["model"]:
        text += f" {n} more {'is' if n == 1 else 'are'} on muscle length, which a model answers."
    return text
