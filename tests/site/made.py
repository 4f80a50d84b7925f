"""Conclusions made by hand over the invented demo catalog, for what its two studies cannot show."""

from __future__ import annotations

import copy
from collections.abc import Sequence
from dataclasses import replace

from folders import DEMO

from build_tools.catalog.load import load
from build_tools.checks.profile import load_profile
from build_tools.evidence.certainty.rating import Cap, Certainty, RatingStep
from build_tools.evidence.claims.conclusions import (
    Comparison,
    Conclusion,
    Conclusions,
    Disagreement,
    NetworkOrder,
    PartEvidence,
    Question,
    Ranked,
    Row,
)
from build_tools.evidence.claims.verdict import Directions, RatioInterval
from build_tools.evidence.wording.names import Names
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
        directions=Directions(),
        certainty=LOW,
        shape="unclear",
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
            verdict="shown",
            reason="The interval lies there.",
            certainty=LOW,
            sentence="Composed on the claim.",
            comparisons=(comparison,),
        ),
        **more,
    )


def a_book(
    claims: Sequence[Conclusion] = (),
    fields: Sequence[PartEvidence] = (),
    disagreements: Sequence[Disagreement] = (),
    disputed: str | None = None,
) -> book.Book:
    """The demo catalog with two further invented exercises (lamp-raise, wick-press), and these conclusions."""
    catalog = load(DEMO, "catalog")
    crate = catalog.exercises["crate-curl"]
    for id, name in (("lamp-raise", "Lamp raise"), ("wick-press", "Wick press")):
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
        list(disagreements),
    )
    return book.render(catalog, conclusions, load_profile())


def two_lists() -> PartEvidence:
    """Two pairs of exercises that no study connects, and a comparison by direction only."""
    pairs = [
        compared(
            "crate-curl",
            "cable-curl",
            row(estimate=(1.05, 0.97, 1.14)),
            estimate=(1.05, 0.97, 1.14),
        ),
        compared(
            "lamp-raise", "wick-press", row("glow2031", (1.3, 1.1, 1.5)), estimate=(1.3, 1.1, 1.5)
        ),
        compared("crate-curl", "lamp-raise", row(direction="more"), shape="more"),
    ]
    orders = [
        (
            Ranked("crate-curl", 0.8, RatioInterval(1.05, 0.97, 1.14)),
            Ranked("cable-curl", 0.2, None),
        ),
        (Ranked("lamp-raise", 0.9, RatioInterval(1.3, 1.1, 1.5)), Ranked("wick-press", 0.1, None)),
    ]
    components = (
        NetworkOrder("cable-curl", orders[0], 1, 18, None, None, None),
        NetworkOrder("wick-press", orders[1], 1, 12, 0.0, 0.0, 0.4),
    )
    return PartEvidence(LONG, "growth", None, components, tuple(pairs))


#: Three samples, two of them pooled.
POOLED = compared(
    "crate-curl",
    "cable-curl",
    row(estimate=(1.06, 1.01, 1.11)),
    row("glow2031", (1.02, 0.98, 1.06), people=12),
    row("wick2030", direction="less"),
    estimate=(1.035, 1.005, 1.066),
    prediction=(0.97, 1.1),
    i2=34.0,
)


def page(made: book.Book, uri: str) -> str:
    return next(page.text for page in made.pages if page.uri == uri)


def file(made: book.Book, uri: str) -> str:
    return next(file.content for file in made.files if file.uri == uri).decode()
