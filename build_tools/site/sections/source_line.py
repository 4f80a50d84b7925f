"""A source in a list: what was measured in it or what it is cited for, how much of it was read, and by what a list is narrowed to it."""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from ...catalog import entries
from ...catalog.walk import statements
from ...english import counted, listed, lower_first, upper_first
from ..context import Link, PageContext, RenderContext, once
from . import labels

#: The value of a design for a source without a study file.
WITHOUT_NUMBERS = "none"


@dataclass(frozen=True)
class SourceLine:
    """One source in a list."""

    link: Link
    title: str
    measured: str
    """What was measured, in how many people; of a source without numbers nothing."""
    read: str
    words: str
    """Words that it is found by and that do not stand in the line."""
    values: dict[str, list[str]]
    """Field -> the values by which the list is narrowed to it."""
    group: str
    """``reviews``, ``without-numbers``, or the first letter of its authors."""


def view(desk: PageContext, key: str) -> SourceLine:
    """The line of one source."""
    shelf = desk.shelf
    reference, entry = shelf.catalog.references[key], shelf.catalog.studies.get(key)
    study = entry.data if entry else None
    measured = {o: _muscles(shelf, study, o) for o in labels.OUTCOMES} if study else {}
    return SourceLine(
        link=desk.source(key),
        title=reference.title.rstrip("."),
        measured=_told(shelf, study) if study else "",
        read=labels.read_of(reference.read),
        words=" ".join(family for family, _ in reference.authors),
        values={
            "muscle": sorted(
                {muscle for found in measured.values() for of in found.values() for muscle in of}
                or _spoken_of(shelf).get(key, set())
            ),
            "outcome": sorted(outcome for outcome, found in measured.items() if found),
            "design": [study.design if study else WITHOUT_NUMBERS],
            "read": [value_of(reference.read)],
        },
        group=_group(shelf, study, desk.source(key).text),
    )


def value_of(read: str) -> str:
    """How much was read, as one word."""
    return read.replace(" ", "-")


def _group(shelf: RenderContext, study: entries.Study | None, short: str) -> str:
    if study is None:
        return "without-numbers"
    if shelf.vocabulary.designs[study.design].synthesis:
        return "reviews"
    first = next(letter for letter in short if letter.isalnum())
    letter = unicodedata.normalize("NFKD", first)[0].upper()
    return letter if "A" <= letter <= "Z" else "Z"  # where the list has it, too


def _told(shelf: RenderContext, study: entries.Study) -> str:
    """``Growth and strength of the hamstrings; 20 people, 12 weeks``."""
    on: dict[str, list[str]] = {}
    for outcome in labels.OUTCOMES:
        for measure, found in _muscles(shelf, study, outcome).items():
            # Architecture is many things; the others are said as one speaks of them.
            what = lower_first(measure) if outcome == "architecture" else outcome
            on[what] = [m for m in shelf.catalog.muscles if m in {*on.get(what, ()), *found}]
    together: dict[tuple[str, ...], list[str]] = {}
    for what, muscles in on.items():
        together.setdefault(tuple(muscles), []).append(what)
    told = [
        f"{listed(what)} of {listed([shelf.names.part(muscle) for muscle in muscles])}"
        for muscles, what in together.items()
    ]
    who = counted(study.people.n, "person", "people")
    weeks = f", {study.weeks:g} weeks" if study.weeks else ""
    return f"{upper_first('; '.join(told))}; {who}{weeks}"


def _muscles(shelf: RenderContext, study: entries.Study, outcome: str) -> dict[str, set[str]]:
    """Name of each measure of an outcome -> the muscles it was taken on."""
    found: dict[str, set[str]] = {}
    for result in study.results:
        measure = shelf.vocabulary.measures[result.measure]
        if measure.outcome == outcome:
            found.setdefault(measure.name, set()).update(p.partition("/")[0] for p in result.parts)
    return found


@once
def _spoken_of(shelf: RenderContext) -> dict[str, set[str]]:
    """Reference key -> the muscles that it is cited for."""
    found: dict[str, set[str]] = defaultdict(set)
    for statement in statements(shelf.catalog):
        for muscle in _about(statement.entry.id, statement.entry.data, statement.basis):
            for citation in statement.basis.cites:
                found[citation.key].add(muscle)
    return found


def _about(id: str, data: object, basis: entries.Basis) -> Iterable[str]:
    if isinstance(data, entries.Muscle):
        return (id,)
    if isinstance(basis, entries.Claim):
        return (part.partition("/")[0] for part in basis.part)
    return ()
