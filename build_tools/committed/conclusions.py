"""Conclusions as files (``catalog/conclusions/``), so that a pull request shows what a new study changes.

One file for each exercise (its claims) and each muscle (every comparison of its parts,
the exercises that studies connect, and what length seems to add). How numbers are rounded:
``rounding``; how the text is laid out: ``plain_yaml``. The same catalog gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Mapping

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
from ..evidence.model.change import Outlook
from ..evidence.model.slope import LengthSlope
from ..evidence.terms import Directions, Measured, RatioInterval
from ..evidence.wording import rounding
from ..evidence.wording.rule_of_thumb import per_cent
from ..movement.length.length import percent
from .plain_yaml import Data, dump

FOLDER = "conclusions"
#: Key -> what stands under it, of a claim and of a pair.
CLAIM_KEYS: dict[str, str] = {
    "claim": "Exercise and number of the claim on its page, from 1.",
    "outcome": "Growth, activation, strength or length.",
    "relative to": "The other part, when the claim is about a ratio of two parts.",
    "says": "What the author claims: more than, less than or similar to another exercise or part.",
    "basis": "Cited, or common practice.",
    "finding": "What was found of the claim: found, hinted, unclear, alike, opposite or not studied.",
    "certainty": "GRADE's word: the lowest over its parts.",
    "sentence": "As the page tells it.",
    "parts": "The answer for each part, with the fields of an answer.",
}
PAIR_KEYS: dict[str, str] = {
    "pair": "First exercise against second; a version of one stands after an @.",
    "sentence": "As the page tells it.",
}
#: Key -> what stands under it, of the answer to one question.
ANSWER_KEYS: dict[str, str] = {
    "part": "The part that is answered for.",
    "finding": "What studies found: found (the interval leaves out no difference), hinted, unclear, alike or not studied.",
    "side": "Which side is ahead or leans ahead: more is the first.",
    "mean length": "By the model: mean lengths of the muscle, first against second, as shares of its own range.",
    "measured": "Together: several parts in one number. Whole: the muscle as one. Left out where the part was measured by itself.",
    "dimension": "Of growth: thickness, area or volume.",
    "ratio": "First to second, the average over studies like these.",
    "interval": "95% interval of the ratio.",
    "spread": "Borrowed: no paper behind it prints one.",
    "leaves open": "95% interval of what a reported null leaves open.",
    "path": "Indirect: through other exercises that studies connect. Left out for studies of this very pair.",
    "chance of more": "That the first is ahead at all, 0 to 1.",
    "stated": "How many samples state a direction without a number.",
    "studies point": "Opposite ways, where each side has a test or an interval behind it.",
    "studies": "How many samples of people were weighed.",
    "people": "How many people they are.",
    "rests on": "Keys of the studies that were weighed.",
    "certainty": "GRADE's word: high, moderate, low or very low.",
    "changed by one more study": "Chance that one more study of the same size changes the finding, 0 to 1.",
    "to settle": "What it would take.",
}
#: How every file starts. Whatever does not is never removed.
HEADER = "# Written by handbook conclude. Do not edit.\n"


def files(conclusions: Conclusions, catalog: Catalog) -> dict[str, str]:
    """Path below the catalog folder -> text, sorted by path."""
    return {path: HEADER + dump(data) for path, data in tables(conclusions, catalog).items()}


def tables(conclusions: Conclusions, catalog: Catalog) -> dict[str, Mapping[str, Data]]:
    """Path below the catalog folder -> what its file says, sorted by path."""
    found: dict[str, Mapping[str, Data]] = {}
    for id, entry in catalog.exercises.items():
        claims: list[Data] = [
            _claim(c, claim)
            for c, claim in zip(conclusions.of(id), entry.data.emphasis, strict=True)
        ]
        found[f"{FOLDER}/exercises/{id}.yaml"] = {"exercise": id, "claims": claims}
    of_muscle: dict[str, list[Data]] = {id: [] for id in catalog.muscles}
    for _, field in sorted(
        conclusions.fields.items(), key=lambda item: [ref or "" for ref in item[0]]
    ):
        of_muscle[field.part.partition("/")[0]].append(_field(field))
    for id, fields in of_muscle.items():
        slope = conclusions.slopes.get(id)
        found[f"{FOLDER}/muscles/{id}.yaml"] = {
            "muscle": id,
            **({"length": _slope(slope)} if slope else {}),
            "fields": fields,
        }
    return dict(sorted(found.items()))


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
        "finding": conclusion.finding,
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
            {
                "pair": f"{c.question.first} against {c.question.second}",
                **_answer(c),
                **({"sentence": c.sentence} if c.sentence else {}),
            }
            for c in field.comparisons
        ],
    }


def _component(component: NetworkOrder) -> Data:
    return {
        "against": component.reference,
        **_measured(component.measured, component.dimension),
        "studies": component.samples,
        "people": component.people,
        "order": [_ranked(ranked) for ranked in component.order],
    }


def _ranked(ranked: Ranked) -> Data:
    against = ranked.against_reference
    return {"exercise": ranked.exercise, **(_estimate(against) if against else {})}


def _answer(comparison: Comparison) -> dict[str, Data]:
    told: dict[str, Data] = {"finding": comparison.finding}
    if comparison.side:
        told["side"] = comparison.side
    if comparison.modelled and not comparison.modelled.missing:
        told["mean length"] = (
            f"{percent(comparison.modelled.first)}% against {percent(comparison.modelled.second)}% of the own range"
        )
    if comparison.certainty:
        told |= _measured(comparison.measured, comparison.dimension)
    if comparison.estimate and comparison.sized:
        told |= _estimate(comparison.estimate)
        if comparison.borrowed:
            told["spread"] = "borrowed"
    elif comparison.estimate:
        told["leaves open"] = _ends(comparison.estimate)
    if comparison.path not in (None, "direct"):
        told["path"] = comparison.path
    if comparison.more is not None:
        told["chance of more"] = rounding.chance(comparison.more)
    if comparison.directions != Directions():
        told["stated"] = str(comparison.directions)
    if comparison.conflict:
        told["studies point"] = "opposite ways"
    if comparison.studies:
        told |= {"studies": comparison.studies, "people": comparison.people}
    if keys := sorted({row.study for row in comparison.rows if row.weighed}):
        told["rests on"] = tuple(keys)
    told |= _certainty(comparison)
    return told | (_outlook(comparison.outlook) if comparison.outlook else {})


def _measured(measured: Measured, dimension: str | None) -> dict[str, Data]:
    """What was measured, where it was not the part by itself, and of growth its dimension."""
    told: dict[str, Data] = {"measured": measured} if measured != "part" else {}
    return {**told, **({"dimension": dimension} if dimension else {})}


def _estimate(estimate: RatioInterval) -> dict[str, Data]:
    return {"ratio": rounding.ratio(estimate.ratio), "interval": _ends(estimate)}


def _ends(estimate: RatioInterval) -> Data:
    return rounding.ratio(estimate.low), rounding.ratio(estimate.high)


def _outlook(outlook: Outlook) -> dict[str, Data]:
    """How likely one more study changes the finding, and how many people settle it."""
    return {
        "changed by one more study": rounding.chance(outlook.chance),
        "to settle": f"a study of {outlook.people}"
        if outlook.people
        else f"{outlook.more} more studies of {outlook.same}"
        if outlook.more
        else "more than 20 studies",
    }


def _slope(slope: LengthSlope) -> Data:
    """Per cent more growth for a fifth of the range."""
    return {
        "per fifth of the range": f"{rounding.per_cent(per_cent(slope.mean))}%",
        "interval": tuple(rounding.per_cent(per_cent(end)) for end in (slope.low, slope.high)),
        "expected before": f"{rounding.per_cent(per_cent(slope.prior[0]))}%",
        "chance of more": rounding.chance(slope.more),
        "studies": list(slope.studies),
        "people": slope.people,
    }


def _certainty(rated: Conclusion | Comparison) -> dict[str, Data]:
    return {"certainty": rated.certainty.level} if rated.certainty else {}
