"""A claim's chain: what its author wrote, what each study says, what is made of it, and the sentence."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalog.entries import Claim
from ...catalog.load import Catalog
from ...english import upper_first
from ..certainty.rating import Certainty
from ..claims import judgement
from ..claims.conclusions import Comparison, Conclusion, Conclusions
from ..claims.engine import Engine
from ..claims.length_claims import judge
from ..settings import settings
from ..terms import Claimed
from ..wording.names import Names
from . import pooling, studies
from .text import Line, place, render

_CLAIMED: dict[str, Claimed] = {"more_than": "more", "less_than": "less", "similar_to": "similar"}


def explain(
    catalog: Catalog, conclusions: Conclusions, claim_id: str, engine: Engine | None = None
) -> str:
    """The chain of one claim of a sound catalog, as text. Raises ``KeyError`` for an id that no claim has.

    Several claims may share one ``engine`` of the catalog, which fits each network once.
    """
    conclusion = by_id(conclusions)[claim_id]
    return render(_lines(catalog, engine or Engine(catalog, settings(catalog)), conclusion))


def by_id(conclusions: Conclusions) -> dict[str, Conclusion]:
    """Claim id -> conclusion, in the order of the exercises."""
    return {
        conclusion.claim_id: conclusion
        for claims in conclusions.claims.values()
        for conclusion in claims
    }


def _lines(catalog: Catalog, engine: Engine, conclusion: Conclusion) -> Iterator[Line]:
    entry = catalog.exercises[conclusion.exercise]
    claim = entry.data.emphasis[conclusion.index]
    yield 0, f"{conclusion.claim_id}  {place(entry.spot('emphasis', conclusion.index))}"
    yield 0, ""
    yield 0, "What its author wrote"
    yield from ((1, text) for text in _written(engine.names, conclusion, claim))
    for comparison in conclusion.comparisons:
        yield 0, ""
        yield 0, upper_first(engine.names.part(comparison.question.part))
        yield from _part(engine, comparison, _CLAIMED[claim.direction])
    yield 0, ""
    yield 0, "What the page says"
    yield 1, f"Finding: {conclusion.finding}{_weakest(conclusion)}."
    if conclusion.certainty:
        yield 1, f"Certainty: {conclusion.certainty.level}."
    yield 1, conclusion.sentence


def _written(names: Names, conclusion: Conclusion, claim: Claim) -> Iterator[str]:
    other = claim.comparator
    than = names.exercise(other.exercise) if other.exercise else names.part(other.part or "")
    relation = {"more": "more than", "less": "less than", "similar": "similar to"}[
        _CLAIMED[claim.direction]
    ]
    ratio = f" relative to {names.part(claim.relative_to)}" if claim.relative_to else ""
    yield f"{upper_first(claim.outcome)} of {names.parts(claim.part)}{ratio} in {names.exercise(conclusion.exercise)}: {relation} {than}."
    yield f"Because: {claim.because}"
    if claim.cites:
        yield "Cites: " + ", ".join(
            f"{cite.key} ({cite.at})" if cite.at else cite.key for cite in claim.cites
        )
    if claim.common_practice:
        yield f"Common practice: {claim.common_practice}"
    if claim.disputed:
        yield f"Disputed: {claim.disputed}"


def _part(engine: Engine, comparison: Comparison, claimed: Claimed) -> Iterator[Line]:
    if comparison.modelled:
        yield 1, "A length comes from a model of the body, not from studies."
        judged = judge(claimed, comparison, engine.settings.margin_length)
        yield 1, f"Finding: {judged.finding}. {judged.reason}"
        return
    if not comparison.rows and comparison.estimate is None:
        yield 1, "No study in the catalog has a number or a direction for it."
    else:
        yield from studies.lines(engine, comparison.question, comparison.rows)
        if comparison.path in ("indirect", "direct and indirect"):
            fit = engine.component(comparison.question)
            yield 1, "Through other exercises:"
            yield from (
                (depth + 1, text)
                for depth, text in studies.elsewhere(
                    engine,
                    comparison.question,
                    comparison.rows,
                    set(fit.network.treatments) if fit else set(),
                )
            )
        yield 0, ""
        yield from pooling.lines(engine, comparison)
        if comparison.directions.total:
            yield (
                1,
                f"Directions stated without a number: {comparison.directions}.",
            )
    if comparison.certainty:
        yield 0, ""
        yield from _certainty(comparison.certainty)
    judged = judgement.judge(
        claimed, comparison, engine.settings.margins[comparison.question.outcome]
    )
    yield 1, f"Finding: {judged.finding}. {judged.reason}"


def _certainty(rated: Certainty) -> Iterator[Line]:
    yield 1, f"Certainty: {rated.level}"
    for step in rated.steps:
        yield (
            2,
            f"{f'{step.change:+d}'.replace('-', chr(0x2212)) if step.change else ' 0'}  {step.domain}: {step.reason}",
        )
    for cap in rated.caps:
        yield 2, f"at most {cap.at_most}: {cap.reason}"


def _weakest(conclusion: Conclusion) -> str:
    return ", the weakest of its parts" if len(conclusion.comparisons) > 1 else ""
