"""Conclusions made by hand over the invented demo catalog, for what its two studies cannot show."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import replace

from folders import DEMO

from build_tools.catalog.load import load
from build_tools.checks.profile import load_profile
from build_tools.evidence.certainty.rating import Cap, Certainty, RatingStep
from build_tools.evidence.claims.conclusions import (
    Comparison,
    Conclusion,
    Conclusions,
    KindsCompared,
    NetworkOrder,
    PartEvidence,
    Ranked,
    Row,
)
from build_tools.evidence.model.change import FurtherStudy, Outlook
from build_tools.evidence.model.slope import LengthSlope
from build_tools.evidence.terms import Question, RatioInterval
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.sentences import ComposedAnswer
from build_tools.site import book

LONG, SHORT = "lantern/long-head", "lantern/short-head"
LOW = Certainty(
    "low",
    "high",
    (
        RatingStep("start-design", "start", 0, "Starts high: trials."),
        RatingStep("imprecision-people", "imprecision", -1, "Few people."),
        RatingStep("inconsistency-i2", "inconsistency", -2, "The samples differ."),
    ),
    (Cap("cap-read", "moderate", "Read in the abstract only."),),
)


def row(
    study: str = "wick2030",
    estimate: tuple[float, float, float] | None = None,
    direction: str | None = None,
    **more: object,
) -> Row:
    given = Row(
        study=study,
        results=(0,),
        people=18,
        read="abstract",
        estimate=RatioInterval(*estimate) if estimate else None,
        direction=direction,
        stated=direction is not None,
        how="taken back from t" if estimate else "no spread reported",
        texts=("Curl 14%, other 9% (abstract)",),
    )
    return replace(given, **more)


def compared(
    first: str,
    second: str,
    *rows: Row,
    estimate: tuple[float, float, float] | None = None,
    part: str = LONG,
    outcome: str = "growth",
    **more: object,
) -> Comparison:
    comparison = Comparison(
        question=Question(first, second, part, outcome),
        estimate=RatioInterval(*estimate) if estimate else None,
        path="direct" if estimate else None,
        rows=rows,
        certainty=LOW,
        finding="unclear",
        side=None,
        sentence=f"Composed on {first} and {second}.",
        studies=len(rows),
        people=18,
    )
    return replace(comparison, **more)


def concluded(comparison: Comparison, **more: object) -> Conclusion:
    """The conclusion on the first claim of the crate curl."""
    return replace(
        Conclusion(
            claim_id="crate-curl/1",
            exercise="crate-curl",
            index=0,
            outcome="growth",
            parts=(LONG,),
            basis="cited",
            finding="found",
            reason="The interval lies there.",
            certainty=LOW,
            told=(ComposedAnswer("Composed on the claim.", ()),),
            comparisons=(comparison,),
        ),
        **more,
    )


def a_book(
    claims: Sequence[Conclusion] = (),
    fields: Sequence[PartEvidence] = (),
    kinds: Sequence[KindsCompared] = (),
    disputed: str | None = None,
    slopes: Mapping[str, LengthSlope] | None = None,
) -> book.Book:
    """The demo catalog with four further invented exercises (lamp-raise, wick-press, flame-row, oil-press), and these conclusions."""
    catalog = load(DEMO, "catalog")
    crate = catalog.exercises["crate-curl"]
    for id in ("lamp-raise", "wick-press", "flame-row", "oil-press"):
        name = id.replace("-", " ").capitalize()
        other = copy.copy(crate)
        object.__setattr__(other, "id", id)
        object.__setattr__(
            other, "data", crate.data.model_copy(update={"name": name, "emphasis": [], "swaps": []})
        )
        catalog.exercises[id] = other
    claims_written = [
        crate.data.emphasis[0].model_copy(update={"disputed": disputed}),
        *crate.data.emphasis[1:],
    ]
    for id, written in (("crate-curl", claims_written[: len(claims)]), ("cable-curl", [])):
        entry = catalog.exercises[id]
        object.__setattr__(entry, "data", entry.data.model_copy(update={"emphasis": written}))
    conclusions = Conclusions(
        Names(catalog),
        {"crate-curl": list(claims)},
        {(f.part, f.outcome, f.relative_to): f for f in fields},
        list(kinds),
        dict(slopes or {}),
    )
    return book.render(catalog, conclusions, load_profile())


def outlook(
    chance: float, people: int | None = 40, more: int | None = 3, same: int = 20
) -> Outlook:
    """What one more study would change: with 20 people, and with 80."""
    studies = [
        FurtherStudy(n, ratio, finding, side)  # type: ignore[arg-type]
        for n in (same, 4 * same)
        for ratio, finding, side in ((0.98, "unclear", None), (1.0, "hinted", "more"))
    ]
    return Outlook(chance, same, people, more, tuple(studies))


def two_lists() -> PartEvidence:
    """Two lists of three exercises that no study connects, and a comparison by direction only."""
    pairs = [
        compared(
            "crate-curl",
            "cable-curl",
            row(estimate=(1.05, 0.97, 1.14)),
            estimate=(1.05, 0.97, 1.14),
        ),
        compared(
            "lamp-raise",
            "wick-press",
            row("glow2031", (1.3, 1.1, 1.5)),
            estimate=(1.3, 1.1, 1.5),
            finding="found",
            side="more",
        ),
        compared("oil-press", "wick-press", estimate=(0.8, 0.7, 0.9), finding="found", side="less"),
        compared("crate-curl", "lamp-raise", row(direction="more"), finding="hinted", side="more"),
    ]
    orders = [
        (
            Ranked("crate-curl", RatioInterval(1.05, 0.97, 1.14)),
            Ranked("cable-curl", None),
            Ranked("flame-row", RatioInterval(0.9, 0.8, 1.1)),
        ),
        (
            Ranked("lamp-raise", RatioInterval(1.3, 1.1, 1.5)),
            Ranked("wick-press", None),
            Ranked("oil-press", RatioInterval(0.8, 0.7, 0.9)),
        ),
    ]
    components = (
        NetworkOrder("cable-curl", orders[0], 2, 18, "part", "thickness"),
        NetworkOrder("wick-press", orders[1], 2, 12, "together", None),
    )
    return PartEvidence(LONG, "growth", None, components, tuple(pairs))


#: Three samples, two of them with a spread of their own.
POOLED = compared(
    "crate-curl",
    "cable-curl",
    row(estimate=(1.06, 1.01, 1.11)),
    row("glow2031", (1.02, 0.98, 1.06), people=12),
    row("wick2030", direction="less"),
    estimate=(1.035, 1.005, 1.066),
    finding="found",
    side="more",
    more=0.985,
    matters=0.8,
    outlook=outlook(0.34),
)


def page(made: book.Book, uri: str) -> str:
    return next(page.text for page in made.pages if page.uri == uri)


def file(made: book.Book, uri: str) -> str:
    return next(file.content for file in made.files if file.uri == uri).decode()
