"""What was concluded of a catalog last, so that a preview weighs anew only what a change bears on.

Studies and exercises go by the very objects: ``load`` gives an entry that did not change as the object that it was
(``load.FileMemory``). All else that weighing reads goes by value (``terms``).
"""

from __future__ import annotations

from collections.abc import Mapping

from ...catalog.entries import Exercise
from ...catalog.load import Catalog, Loaded
from ..settings import settings
from ..studies.study_index import counting, sample_names
from ..wording.names import Names
from .conclusions import Conclusion, Conclusions, PartEvidence
from .engine import Earlier, Engine

#: What is read of the vocabulary for it.
READ_OF_VOCABULARY = ("appraisal_questions", "designs", "measures", "proper_nouns", "versions")


class ConclusionMemory:
    """One catalog's last engine and conclusions."""

    def __init__(self) -> None:
        self._catalog: Catalog | None = None
        self._engine: Engine | None = None
        self._conclusions: Conclusions | None = None

    def engine(self, catalog: Catalog) -> Engine:
        """The engine of a catalog: the last one where nothing changed that weighing reads, else one that asks the last where it may."""
        last, earlier = self._catalog, None
        if self._engine and last and terms(catalog) == terms(last):
            measured = measured_by_changed(catalog, last)
            if measured is None:
                return self._engine
            earlier = Earlier(self._engine, measured)
        self._engine, self._conclusions = Engine(catalog, settings(catalog), earlier), None
        return self._engine

    def fields(self) -> dict[tuple[str, str, str | None], PartEvidence] | None:
        """What is known on each part, by the same engine."""
        return dict(self._conclusions.fields) if self._conclusions else None

    def claims(self, id: str, entry: Loaded[Exercise]) -> list[Conclusion] | None:
        """What was concluded of an exercise that did not change. The model's lengths rest on other exercises too."""
        assert self._catalog is not None or self._conclusions is None
        if (
            not self._conclusions
            or not self._catalog
            or self._catalog.exercises.get(id) is not entry
        ):
            return None
        known = self._conclusions.claims.get(id)
        return known if known and all(one.outcome != "length" for one in known) else None

    def keep(self, catalog: Catalog, conclusions: Conclusions) -> None:
        """For the next time. All was asked, so the engine before is needed no more."""
        self._catalog, self._conclusions = catalog, conclusions
        if self._engine:
            self._engine.forget_earlier()


def terms(catalog: Catalog) -> tuple[object, ...]:
    """All that weighing and its sentences read beside studies and claims. In two states with the same terms a study says the same."""
    assert (
        catalog.vocabulary is not None and catalog.handbook is not None
    )  # or it would not be sound
    names = Names(catalog)
    return (
        {ref: names.part(ref) for ref in catalog.part_refs()},
        {id: entry.data.name for id, entry in catalog.exercises.items()},
        {key: (record.read, record.retracted) for key, record in catalog.references.items()},
        catalog.handbook.data.conventions,
        [getattr(catalog.vocabulary.data, name) for name in READ_OF_VOCABULARY],
    )


def measured_by_changed(catalog: Catalog, last: Catalog) -> frozenset[tuple[str, str]] | None:
    """Muscles and outcomes that changed studies measure or measured, and studies of the same people with them; ``None`` when none changed."""
    now, then = catalog.studies, last.studies
    changed = {id for id in now.keys() | then.keys() if now.get(id) is not then.get(id)}
    if not changed:
        return None
    for names in (_all_samples, _counted_samples):
        after, before = names(catalog), names(last)
        changed |= {id for id in after.keys() | before.keys() if after.get(id) != before.get(id)}
        samples = {state[id] for state in (after, before) for id in changed & state.keys()}
        changed |= {id for state in (after, before) for id in state if state[id] in samples}
    assert catalog.vocabulary is not None  # or the catalog would not be sound
    measures = catalog.vocabulary.data.measures
    return frozenset(
        (part.partition("/")[0], measures[result.measure].outcome)
        for state in (now, then)
        for id in changed & state.keys()
        for result in state[id].data.results
        for part in result.parts
    )


def _all_samples(catalog: Catalog) -> Mapping[str, str]:
    return sample_names({id: entry.data for id, entry in catalog.studies.items()})


def _counted_samples(catalog: Catalog) -> Mapping[str, str]:
    return sample_names(counting(catalog))
