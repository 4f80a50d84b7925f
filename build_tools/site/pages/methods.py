"""Generated passages of the Methods page: the worked example, the rules of certainty, and the conventions."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NamedTuple
from urllib.parse import quote

from ...catalog.entries import Convention, Correlation
from ...english import upper_first
from ...evidence.certainty.rating import RULES
from ...evidence.certainty.words import MEANING
from ...evidence.claims.conclusions import Comparison, Conclusion
from ..context import Grounds, Link, PageContext, RenderContext
from ..sections import comparison as comparisons
from ..sections import labels as words
from ..sections.comparison import ComparisonView, RowView
from ..templating import render
from . import exercise

#: Anchors that other pages link to.
ANCHORS = ["verdicts", "certainty", "conventions", "posture"]
#: Verdict -> what it means.
VERDICTS = {
    "shown": "The whole 95% interval lies where the claim says.",
    "leaning": "The estimate lies there and so does most of its interval; or nothing can be pooled, and every stated direction agrees.",
    "not shown": "The estimate or its interval does not bear the claim out. That is not proof of the opposite.",
    "contradicted": "The numbers point the other way. Such a claim may stand only with the author's reason printed beside it.",
    "untested": "No number in this handbook bears on the claim.",
}
#: Level of certainty -> how a sentence carries it.
WORDING = {
    "high": "is",
    "moderate": "is probably",
    "low": "may be",
    "very low": "it is very uncertain whether",
}
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
    """One claim on its whole way from the printed number to the sentence."""

    claim: Link
    claimed: str
    measured: str
    row: RowView
    how: str
    others: int
    """How many more samples stand beside the first."""
    pooled: str
    conclusion: Conclusion
    comparison: ComparisonView
    steps: list[tuple[str, str]]
    """Where the rating of certainty starts, and every step that changes it."""


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


def verdicts(shelf: RenderContext, uri: str) -> str:
    """What each verdict means."""
    return render("methods_words.html.jinja", words=list(VERDICTS.items()))


def levels(shelf: RenderContext, uri: str) -> str:
    """What each word of certainty means, from the highest."""
    told = [
        (level, f"{meaning} In a sentence: “{WORDING[level]}”.")
        for level, meaning in MEANING.items()
    ]
    return render("methods_words.html.jinja", words=told)


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
    """The claim of the worked example: the first with an estimate; several samples and growth come before one and the rest."""
    pairs = [
        (conclusion, c)
        for id in shelf.catalog.exercises
        for conclusion in shelf.conclusions.of(id)
        for c in conclusion.comparisons
        if c.estimate and any(row.estimate for row in c.rows)
    ]
    return min(
        pairs,
        key=lambda p: (
            sum(row.estimate is not None for row in p[1].rows) == 1,
            p[0].outcome != "growth",
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
    first = next(row for row in comparison.rows if row.estimate)
    file = exercise.figure(conclusion, conclusion.comparisons.index(comparison))
    shown = comparisons.view(desk, comparison, file)
    steps = shown.certainty.steps if shown.certainty else []
    return WorkedExample(
        claim=desk.exercise(conclusion.exercise, f"claim-{conclusion.index + 1}"),
        claimed=exercise.claimed(desk.shelf, conclusion),
        measured=words.MEASURED[conclusion.outcome],
        row=comparisons.row(desk, first),
        how=first.how,
        others=len(comparison.rows) - 1,
        pooled=comparisons.told(estimate),
        conclusion=conclusion,
        comparison=shown,
        steps=[step for n, step in enumerate(steps) if n == 0 or step[0]],
    )


def _sensitive(desk: PageContext) -> list[tuple[Link, str]]:
    return [
        (desk.exercise(id, f"claim-{c.index + 1}"), sentence)
        for id in desk.shelf.catalog.exercises
        for c in desk.shelf.conclusions.of(id)
        for sentence in dict.fromkeys(p.sensitive for p in c.comparisons)
        if sentence
    ]
