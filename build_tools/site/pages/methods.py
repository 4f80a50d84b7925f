"""Generated passages of the Methods page: the table of sentences, the worked example, the rules of certainty, the conventions."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple
from urllib.parse import quote

from ...catalog.entries import Convention, Correlation
from ...english import upper_first
from ...evidence.certainty.rating import RULES
from ...evidence.certainty.words import MEANING
from ...evidence.claims.conclusions import Comparison, Conclusion
from ...evidence.terms import LEVELS
from ...evidence.wording.table import ROWS, TableRow
from ...evidence.wording.table import example as phrase
from ..client import scripts
from ..context import Grounds, Link, PageContext, RenderContext
from ..sections import comparison as comparisons
from ..sections import labels as words
from ..sections import outlook, statements
from ..sections.comparison import ComparisonView, RowView
from ..templating import render

#: Anchors that other pages link to.
ANCHORS = ["findings", "verdicts", "certainty", "conventions", "length-rule", "posture"]
#: Domain of the rules -> its heading.
_DOMAINS = {
    "start": "Where the rating starts",
    "cap": "Limits that nothing lifts",
    "authored": "What authors may set",
}


#: A DOI in running text, without the full stop, comma or bracket that may follow it.
_DOI = re.compile(r"doi:(10\.[0-9]+/[^\s,;]*[^\s,;.):])")


class Piece(NamedTuple):
    """A stretch of text, and where it leads if anywhere."""

    text: str
    href: str | None


@dataclass(frozen=True)
class WorkedExample:
    """One claim on its whole way from the printed numbers to the sentence."""

    claim: Link
    claimed: str
    measured: str
    rows: list[RowView]
    """The samples that have a number."""
    others: int
    """How many samples beside them have none."""
    pooled: str
    chances: str | None
    sensitive: str | None
    conclusion: Conclusion
    comparison: ComparisonView
    steps: list[tuple[str, str]]
    """Where the rating of certainty starts, and every step that changes it."""
    script: str
    """Saves its figure."""


@dataclass(frozen=True)
class ConventionView:
    """A number that methods leave open."""

    name: str
    convention: Convention
    grounds: Grounds


@dataclass(frozen=True)
class CorrelationView:
    """How alike two numbers of the same people are taken to be."""

    data: Correlation
    measures: list[str]
    """The measures it holds for; empty for all others of its outcome."""
    grounds: Grounds


def example(shelf: RenderContext, uri: str) -> str:
    """The worked example, or a sentence that there is none yet."""
    return render("methods_example.html.jinja", example=_example(shelf.at(uri)))


def findings(shelf: RenderContext, uri: str) -> str:
    """What each finding means, as a claim's page names it."""
    return render("methods_words.html.jinja", words=list(words.FINDINGS.items()))


def sentences(shelf: RenderContext, uri: str) -> str:
    """The table that sentences are made from: what was found, and how each level of certainty words it."""
    table = [(says, _worded(row)) for row, says in ROWS.items()]
    return render("methods_sentences.html.jinja", table=table)


def _worded(row: TableRow) -> list[tuple[str, str]]:
    """The levels that share a phrase, from the highest, and the phrase."""
    told = [(level, phrase(row, level)) for level in reversed(LEVELS)]
    found = []
    for text, same in groupby(told, key=lambda pair: pair[1]):
        levels = [level for level, _ in same]
        if len(levels) == len(LEVELS):
            called = "any"
        else:
            called = levels[0] if len(levels) == 1 else f"{levels[0]} to {levels[-1]}"
        found.append((called, text))
    return found


def levels(shelf: RenderContext, uri: str) -> str:
    """What each word of certainty means, from the highest."""
    return render("methods_words.html.jinja", words=list(MEANING.items()))


def rules(shelf: RenderContext, uri: str) -> str:
    """The rules of certainty, by domain, each with what it follows."""
    desk = shelf.at(uri)
    domains: dict[str, list[tuple[str, list[Piece]]]] = {}
    for rule in RULES:
        domains.setdefault(_DOMAINS.get(rule.domain, upper_first(rule.domain)), []).append(
            (rule.says, linked(desk, rule.source))
        )
    return render("methods_rules.html.jinja", domains=list(domains.items()))


def linked(desk: PageContext, text: str) -> list[Piece]:
    """Text whose DOIs lead to the handbook's own page on them, or else to the publisher."""
    ours = {
        reference.doi.lower(): key
        for key, reference in desk.shelf.catalog.references.items()
        if reference.doi
    }
    pieces: list[Piece] = []
    for n, piece in enumerate(_DOI.split(text)):
        key = ours.get(piece.lower()) if n % 2 else None
        if key:
            pieces.append(Piece(*desk.source(key)))
        else:
            pieces.append(
                Piece(f"doi:{piece}", f"https://doi.org/{quote(piece, safe='/():;.-_')}")
                if n % 2
                else Piece(piece, None)
            )
    return pieces


def conventions(shelf: RenderContext, uri: str) -> str:
    """Every convention with its value, its reason, and what changes if it were otherwise."""
    desk = shelf.at(uri)
    sensitive = _sensitive(desk)
    views = [
        ConventionView(upper_first(key.replace("_", " ")), c, desk.grounds(c))
        for key, c in shelf.handbook.conventions.items()
    ]
    correlations = shelf.handbook.conventions.correlations
    assumed = [
        (
            called,
            [
                CorrelationView(
                    c, [shelf.vocabulary.measures[id].name for id in c.measures], desk.grounds(c)
                )
                for c in getattr(correlations, kind)
            ],
        )
        for kind, called in words.CORRELATIONS.items()
    ]
    return render(
        "methods_conventions.html.jinja", conventions=views, assumed=assumed, sensitive=sensitive
    )


def chosen(shelf: RenderContext) -> tuple[Conclusion, Comparison] | None:
    """The claim of the worked example, the first of those with an estimate.

    Two studies with numbers come before one, two exercises before two parts of one, growth before the rest, what was found before
    what was not, and "more" before "less".
    """
    pairs = [
        (conclusion, c)
        for id in shelf.catalog.exercises
        for conclusion in shelf.conclusions.of(id)
        for c in conclusion.comparisons
        if c.estimate and c.sized and any(row.estimate for row in c.rows)
    ]
    return min(
        pairs,
        key=lambda p: (
            sum(row.estimate is not None for row in p[1].rows) == 1,
            p[1].question.within is not None,
            p[0].outcome != "growth",
            p[0].finding != "found",
            p[1].side == "less",
        ),
        default=None,
    )


def _example(desk: PageContext) -> WorkedExample | None:
    found = chosen(desk.shelf)
    if found is None:
        return None
    conclusion, comparison = found
    estimate = comparison.estimate
    assert estimate is not None
    numbers = [row for row in comparison.rows if row.estimate]
    name = statements.figure(conclusion, conclusion.comparisons.index(comparison))
    shown = comparisons.view(desk, comparison, name)
    steps = shown.certainty.steps if shown.certainty else []
    return WorkedExample(
        claim=desk.exercise(conclusion.exercise, f"claim-{conclusion.index + 1}"),
        claimed=statements.claimed(desk.shelf, conclusion),
        measured=words.MEASURED[conclusion.outcome],
        rows=[comparisons.row(desk, row) for row in numbers],
        others=len(comparison.rows) - len(numbers),
        pooled=comparisons.told(estimate),
        chances=outlook.chances(desk.shelf, comparison),
        sensitive=comparison.sensitive,
        conclusion=conclusion,
        comparison=shown,
        steps=[step for n, step in enumerate(steps) if n == 0 or step[0]],
        script=desk.href(scripts.uri(scripts.SHARE)),
    )


def _sensitive(desk: PageContext) -> list[tuple[Link, str]]:
    return [
        (desk.exercise(id, f"claim-{c.index + 1}"), sentence)
        for id in desk.shelf.catalog.exercises
        for c in desk.shelf.conclusions.of(id)
        for sentence in dict.fromkeys(p.sensitive for p in c.comparisons)
        if sentence
    ]
