"""What the catalog's numbers say on every emphasis claim, as sentences.

This is the simple form: each claim is laid beside the contrasts that studies
report, and their directions are counted in words. Nothing is pooled here, and a
count of directions is never shown as an estimate.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..catalog.entries import Claim
from ..catalog.load import Catalog
from . import sentences
from .reported import Reported, Reports
from .sentences import Names, counted, upper_first

#: How reported directions stand to the claim.
Agreement = Literal["agrees", "mixed", "no difference", "disagrees", "no numbers", "common practice"]
Bearing = Literal["agrees", "no difference", "disagrees", "no direction"]


@dataclass(frozen=True)
class Reading:
    """One reported contrast as it bears on a claim."""

    study: str
    result: int
    text: str
    bearing: Bearing
    direct: bool
    """False when only the whole muscle was measured, not the part."""
    cited: bool
    """Whether the claim's author cites this study."""
    read: str
    """What was read of it: abstract, full text, ..."""
    reported: Reported


@dataclass(frozen=True)
class Conclusion:
    """What the numbers say on one claim."""

    claim_id: str
    """``<exercise>/<number>``, numbered from 1 in the order of the file."""
    exercise: str
    index: int
    outcome: str
    parts: tuple[str, ...]
    basis: Literal["cited", "common practice"]
    agreement: Agreement
    sentence: str
    readings: tuple[Reading, ...] = ()


@dataclass
class Conclusions:
    """Conclusions of a whole catalog."""

    reports: Reports
    names: Names
    by_exercise: dict[str, list[Conclusion]] = field(default_factory=dict)

    def of(self, exercise: str) -> list[Conclusion]:
        """The conclusions of an exercise, in the order of its claims."""
        return self.by_exercise.get(exercise, [])


def conclude(catalog: Catalog) -> Conclusions:
    """Lay every claim of the catalog beside what its studies report."""
    conclusions = Conclusions(Reports(catalog), Names(catalog))
    for id, entry in catalog.exercises.items():
        conclusions.by_exercise[id] = [_conclude(catalog, conclusions, id, n, claim)
                                       for n, claim in enumerate(entry.data.emphasis)]
    return conclusions


def _conclude(catalog: Catalog, all_: Conclusions, exercise: str, index: int, claim: Claim) -> Conclusion:
    readings = tuple(_reading(catalog, all_.names, claim, reported) for reported in _bearing_on(all_.reports, exercise, claim))
    # What was measured on the part itself speaks for it; the whole muscle is shown only in its absence.
    readings = tuple(r for r in readings if r.direct) or readings
    agreement = _agreement(claim, readings)
    return Conclusion(
        claim_id=f"{exercise}/{index + 1}", exercise=exercise, index=index, outcome=claim.outcome, parts=tuple(claim.part),
        basis="common practice" if claim.common_practice else "cited", agreement=agreement,
        sentence=_sentence(catalog, all_.names, exercise, claim, agreement, readings), readings=readings)


def _bearing_on(reports: Reports, exercise: str, claim: Claim) -> list[Reported]:
    other, found = claim.comparator, []
    for part in claim.part:
        if other.exercise:
            found += reports.of_exercises(exercise, other.exercise, part, claim.outcome, claim.relative_to)
        elif other.part:
            found += reports.of_parts(exercise, part, other.part, claim.outcome)
    # One measurement over several claimed parts is one reading, not several.
    return list({(r.study, r.result, r.first.arm, r.second.arm): r for r in reversed(found)}.values())[::-1]


def _reading(catalog: Catalog, names: Names, claim: Claim, reported: Reported) -> Reading:
    reference = catalog.references.get(reported.study)
    return Reading(
        study=reported.study, result=reported.result, text=_reading_text(catalog, names, reported, name_part=len(claim.part) > 1),
        bearing=_bears(claim, reported), direct=reported.cover != "whole muscle",
        cited=any(c.key == reported.study for c in claim.cites), read=reference.read if reference else "", reported=reported)


def _bears(claim: Claim, reported: Reported) -> Bearing:
    if reported.direction is None:
        return "no direction"
    # Two unequal values without a stated difference cannot speak for likeness or against it.
    if claim.direction == "similar_to":
        return "no direction" if not reported.stated else "agrees" if reported.direction == "neither" else "disagrees"
    if reported.direction == "neither":
        return "no difference"
    wanted = "more" if claim.direction == "more_than" else "less"
    return "agrees" if reported.direction == wanted else "disagrees"


def _agreement(claim: Claim, readings: tuple[Reading, ...]) -> Agreement:
    bearings = {r.bearing for r in readings if r.direct and r.bearing != "no direction"}
    if not bearings:
        return "common practice" if claim.common_practice else "no numbers"
    return bearings.pop() if len(bearings) == 1 else "mixed"  # type: ignore[return-value]


def _sentence(catalog: Catalog, names: Names, exercise: str, claim: Claim, agreement: Agreement, readings: tuple[Reading, ...]) -> str:
    claimed = {"more_than": "more", "less_than": "less", "similar_to": "neither"}[claim.direction]
    if agreement in ("common practice", "no numbers"):
        taught = sentences.contrast(names, exercise, claim, claimed, verb="is")  # type: ignore[arg-type]
        if agreement == "common practice":
            return f"Commonly taught, untested here: {taught}."
        return f"Cited, but without numbers for this contrast here: {taught}."
    direct = [r for r in readings if r.direct and r.bearing != "no direction"]
    where = _where(catalog, direct)
    if agreement == "mixed":
        taught = sentences.contrast(names, exercise, claim, claimed)  # type: ignore[arg-type]
        return f"Reports differ on whether {taught}: {_split(direct)}."
    shown = {"agrees": claimed, "no difference": "neither", "disagrees": _other_way(claim, direct)}[agreement]
    clause = (sentences.no_difference(names, exercise, claim) if shown == "neither"
              else sentences.contrast(names, exercise, claim, shown))  # type: ignore[arg-type]
    figures = sentences.numbers(direct[0].reported) if len(direct) == 1 else None
    return f"{upper_first(clause)} in {where}" + (f" ({figures})." if figures else ".")


def _other_way(claim: Claim, direct: list[Reading]) -> str:
    if claim.direction != "similar_to":
        return "less" if claim.direction == "more_than" else "more"
    return direct[0].reported.direction or "neither"


def _where(catalog: Catalog, readings: list[Reading]) -> str:
    keys = list(dict.fromkeys(r.study for r in readings))
    samples = {catalog.studies[key].data.same_sample_as or key: catalog.studies[key].data.people.n for key in reversed(keys)}
    people = sum(samples.values())
    return f"{counted(len(keys), 'study', 'studies')} of {people} people"


def _split(readings: list[Reading]) -> str:
    words = {"agrees": "yes", "no difference": "no clear difference", "disagrees": "the other way round"}
    counts = {w: sum(r.bearing == b for r in readings) for b, w in words.items()}
    return ", ".join(f"{counted(n, 'report')} {w}" for w, n in counts.items() if n)


def _reading_text(catalog: Catalog, names: Names, reported: Reported, name_part: bool) -> str:
    """``Seated crate curl 14%, standing cable curl 9%; p < 0.01 (abstract)``, in the study's own arms."""
    arms = catalog.studies[reported.study].data.arms
    first, second = arms[reported.first.arm].called, arms[reported.second.arm].called
    if reported.first.part != reported.second.part:
        first, second = names.part(reported.first.part), names.part(reported.second.part)
    of, against = reported.first.value, reported.second.value
    if of and against:
        text = f"{first} {sentences.value(of, reported.unit)}, {second} {sentences.value(against, reported.unit)}"
    else:
        told = {"more": f"more for {first} than for {second}", "less": f"less for {first} than for {second}",
                "neither": f"no difference reported between {first} and {second}"}
        text = told.get(reported.direction or "", f"{first} and {second}: no direction given")
        extra = sentences.numbers(reported)
        text += f", {extra}" if extra else ""
    tail = [sentences.p_value(reported), reported.site, "measured jointly with other parts" if reported.cover == "jointly" else None,
            "whole muscle" if reported.cover == "whole muscle" else None]
    if name_part:
        text = f"{names.part(reported.first.part).removeprefix('the ')}: {text}"
    return upper_first("; ".join([text, *[t for t in tail if t]])) + f" ({reported.at})"
