"""The page of gaps: what is taught but untested, what disagrees, what is thin, and what is due for a review."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from ...catalog import entries
from ...clock import months_after
from ...evidence.claims.conclusions import Comparison, Conclusion, PartEvidence
from ...evidence.threshold import above, below
from ..context import Link, PageContext, RenderContext
from ..resource import Resource
from ..sections.comparison import asked
from ..templating import render, sentence
from . import exercise

URI = "gaps.md"
SECTIONS = ("top", "untested", "without-numbers", "disagreements", "thin", "reviews")
#: How many of the next reviews are listed.
_REVIEWS = 10


class Gap(NamedTuple):
    """One claim or comparison, where it stands, and why it is listed."""

    link: Link
    sentence: str
    why: str


@dataclass(frozen=True)
class GapsPage:
    """Everything the template shows."""

    untested: list[tuple[Link, list[Gap]]]
    """Muscle -> claims of common practice without numbers."""
    without_numbers: list[Gap]
    contradicted: list[Gap]
    mixed: list[Gap]
    kinds: list[str]
    thin: list[tuple[Link, list[Gap]]]
    """Muscle -> tested claims with little behind them."""
    reviews: list[tuple[Link, date]]


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, SECTIONS)


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return render(
        "gaps.md.jinja",
        page=model(shelf),
        meta={
            "title": "Gaps",
            "description": "What is commonly taught but untested, where studies disagree, and where little is known.",
            "hide": ["navigation", "toc"],
        },
    )


def model(shelf: RenderContext) -> GapsPage:
    """What the page shows."""
    desk = shelf.at(URI)
    conclusions = [c for id in shelf.catalog.exercises for c in shelf.conclusions.of(id)]
    untested = [c for c in conclusions if c.verdict == "untested"]
    fields = shelf.conclusions.fields.values()
    return GapsPage(
        untested=_by_muscle(
            desk, [(c, _taught(desk, c)) for c in untested if c.basis == "common practice"]
        ),
        without_numbers=[_gap(desk, c) for c in untested if c.basis == "cited"],
        contradicted=[
            _gap(desk, c, _claim(shelf, c).disputed or "")
            for c in conclusions
            if c.verdict == "contradicted"
        ],
        mixed=[
            _mixed(desk, field, c) for field in fields for c in field.comparisons if is_mixed(c)
        ],
        kinds=[d.sentence for d in shelf.conclusions.disagreements],
        thin=_by_muscle(
            desk,
            [
                (c, _asked(desk, c, why))
                for c in conclusions
                if c.verdict != "untested" and (why := thinness(c))
            ],
        ),
        reviews=_reviews(desk),
    )


def is_mixed(comparison: Comparison) -> bool:
    """Whether samples of one comparison point both ways: stated, or with an interval that leaves out likeness."""
    ways = {row.direction for row in comparison.rows if row.stated} & {"more", "less"}
    estimates = [row.estimate for row in comparison.rows if row.estimate]
    ways |= {"more" for e in estimates if above(e.low, 1)} | {
        "less" for e in estimates if below(e.high, 1)
    }  # type: ignore[arg-type]
    return len(ways) == 2


def thinness(conclusion: Conclusion) -> list[str]:
    """Why little stands behind a claim that was tested: few studies, little read, very low certainty."""
    rows = [row for comparison in conclusion.comparisons for row in comparison.rows]
    why = ["one study"] if len({row.study for row in rows}) == 1 else []
    if rows and all(row.read != "full text" for row in rows):
        why.append("no full text read")
    if conclusion.certainty and conclusion.certainty.level == "very low":
        why.append("very low certainty")
    return why


def _claim(shelf: RenderContext, conclusion: Conclusion) -> entries.Claim:
    return shelf.catalog.exercises[conclusion.exercise].data.emphasis[conclusion.index]


def _gap(desk: PageContext, conclusion: Conclusion, why: str = "") -> Gap:
    return Gap(
        desk.exercise(conclusion.exercise, f"claim-{conclusion.index + 1}"),
        conclusion.sentence,
        why,
    )


def _mixed(desk: PageContext, field: PartEvidence, comparison: Comparison) -> Gap:
    return Gap(desk.part(field.part), comparison.sentence, "")


def _taught(desk: PageContext, conclusion: Conclusion) -> Gap:
    return _gap(desk, conclusion)._replace(
        sentence=sentence(exercise.claimed(desk.shelf, conclusion))
    )


def _asked(desk: PageContext, conclusion: Conclusion, why: list[str]) -> Gap:
    """A claim in short: what is compared."""
    compared = "; ".join(
        dict.fromkeys(asked(desk.shelf, c.question) for c in conclusion.comparisons)
    )
    return _gap(desk, conclusion, "; ".join(why))._replace(
        sentence=f"{conclusion.outcome}, {compared}."
    )


def _by_muscle(
    desk: PageContext, gaps: list[tuple[Conclusion, Gap]]
) -> list[tuple[Link, list[Gap]]]:
    found: dict[str, list[Gap]] = {}
    for conclusion, gap in gaps:
        found.setdefault(conclusion.parts[0].partition("/")[0], []).append(gap)
    return sorted((desk.part(muscle), listed) for muscle, listed in found.items())


def _reviews(desk: PageContext) -> list[tuple[Link, date]]:
    """The entries whose review is due next, or was due longest ago, with the day."""
    shelf = desk.shelf
    months = round(shelf.handbook.conventions.review_interval.value)
    due = [
        (months_after(e.data.reviewed, months), desk.exercise(id))
        for id, e in shelf.catalog.exercises.items()
    ]
    due += [
        (months_after(e.data.reviewed, months), desk.part(id))
        for id, e in shelf.catalog.muscles.items()
    ]
    if shelf.catalog.programme:
        due.append(
            (
                months_after(shelf.catalog.programme.data.reviewed, months),
                Link("Programme", desk.href("programme.md")),
            )
        )
    return [(link, day) for day, link in sorted(due)[:_REVIEWS]]
