"""Conclusions as files (``catalog/conclusions/``), so that a pull request shows what a new study changes.

One file for each exercise (its claims) and each muscle (every comparison of its parts, and
the exercises that studies connect, in order). How numbers are rounded: ``rounding``; how
the text is laid out: ``plain_yaml``. The same catalog gives the same bytes.
"""

from __future__ import annotations

from ..catalog.entries import Claim
from ..catalog.load import Catalog
from ..evidence.claims.conclusions import (
    Comparison,
    Conclusion,
    Conclusions,
    NetworkOrder,
    PartEvidence,
    Ranked,
)
from ..evidence.claims.verdict import Directions, RatioInterval
from ..evidence.wording import rounding
from ..movement.length.length import percent
from .plain_yaml import Data, dump

FOLDER = "conclusions"
#: How every file starts. Whatever does not is never removed.
HEADER = "# Written by handbook conclude. Do not edit.\n"


def files(conclusions: Conclusions, catalog: Catalog) -> dict[str, str]:
    """Path below the catalog folder -> text, sorted by path."""
    texts = {}
    for id, entry in catalog.exercises.items():
        claims: list[Data] = [
            _claim(c, claim)
            for c, claim in zip(conclusions.of(id), entry.data.emphasis, strict=True)
        ]
        texts[f"{FOLDER}/exercises/{id}.yaml"] = HEADER + dump({"exercise": id, "claims": claims})
    of_muscle: dict[str, list[Data]] = {id: [] for id in catalog.muscles}
    for _, field in sorted(
        conclusions.fields.items(), key=lambda item: [ref or "" for ref in item[0]]
    ):
        of_muscle[field.part.partition("/")[0]].append(_field(field))
    for id, fields in of_muscle.items():
        texts[f"{FOLDER}/muscles/{id}.yaml"] = HEADER + dump({"muscle": id, "fields": fields})
    return dict(sorted(texts.items()))


def _claim(conclusion: Conclusion, claim: Claim) -> Data:
    other = claim.comparator
    than = {"more_than": "more than", "less_than": "less than", "similar_to": "similar to"}[
        claim.direction
    ]
    return {
        "claim": conclusion.claim_id,
        "outcome": conclusion.outcome,
        **({"relative to": claim.relative_to} if claim.relative_to else {}),
        "says": f"{than} {other.exercise or other.part}",
        "basis": conclusion.basis,
        "verdict": conclusion.verdict,
        **_certainty(conclusion),
        "sentence": conclusion.sentence,
        "parts": [
            {"part": comparison.question.part, **_answer(comparison)}
            for comparison in conclusion.comparisons
        ],
    }


def _field(field: PartEvidence) -> Data:
    return {
        "part": field.part,
        "outcome": field.outcome,
        **({"relative to": field.relative_to} if field.relative_to else {}),
        "components": [_component(component) for component in field.components],
        "comparisons": [
            {"pair": f"{c.question.first} against {c.question.second}", **_answer(c)}
            for c in field.comparisons
        ],
    }


def _component(component: NetworkOrder) -> Data:
    # By the score as printed, so that noise in its last digit moves nobody.
    order = sorted(
        component.order, key=lambda ranked: (-rounding.p_score(ranked.p_score), ranked.exercise)
    )
    told: dict[str, Data] = {
        "against": component.reference,
        "studies": component.samples,
        "people": component.people,
    }
    if component.tau2 is not None and component.i2 is not None:
        told |= {"tau2": rounding.tau2(component.tau2), "i2": rounding.i2(component.i2)}
    return told | {"order": [_ranked(ranked) for ranked in order]}


def _ranked(ranked: Ranked) -> Data:
    return {
        "exercise": ranked.exercise,
        "p-score": rounding.p_score(ranked.p_score),
        **_estimate(ranked.against_reference),
    }


def _answer(comparison: Comparison) -> dict[str, Data]:
    told: dict[str, Data] = {"shape": comparison.shape, **_estimate(comparison.estimate)}
    if comparison.modelled and not comparison.modelled.missing:
        told["mean length"] = (
            f"{percent(comparison.modelled.first)}% against {percent(comparison.modelled.second)}% of the own range"
        )
    if comparison.estimate and comparison.path:
        told["path"] = comparison.path
    if comparison.prediction:
        told["prediction"] = tuple(map(rounding.ratio, comparison.prediction))
    if comparison.directions != Directions():
        told["stated"] = str(comparison.directions)
    if comparison.studies:
        told |= {"studies": comparison.studies, "people": comparison.people}
    return told | _certainty(comparison)


def _estimate(estimate: RatioInterval | None) -> dict[str, Data]:
    if estimate is None:
        return {}
    if estimate.bounded:
        return {"ratio": rounding.ratio(estimate.ratio), "interval": "not known, only a bound on p"}
    return {
        "ratio": rounding.ratio(estimate.ratio),
        "interval": (rounding.ratio(estimate.low), rounding.ratio(estimate.high)),
    }


def _certainty(rated: Conclusion | Comparison) -> dict[str, Data]:
    return {"certainty": rated.certainty.level} if rated.certainty else {}
