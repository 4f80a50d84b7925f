"""What a catalog holds that an entry can name, by kind, each with the words a reader knows it by: for completion in editors."""

from __future__ import annotations

from collections.abc import Mapping

from .. import entries
from ..bibliography import apa
from ..load import Catalog

#: Kind (as in ``KnownKind``) -> id -> what it is called.
KnownWords = Mapping[str, Mapping[str, str]]


def known_words(catalog: Catalog) -> KnownWords:
    """Everything that may be named. A list that is empty, or that cannot be read, is left out."""
    letters = apa.letters(catalog.references.values())
    called = {
        key: f"{apa.short(reference, letters[key])}: {reference.title}"
        for key, reference in catalog.references.items()
    }
    found = {
        **(_vocabulary(catalog.vocabulary.data) if catalog.vocabulary else {}),
        "exercises": {id: _names(entry.data) for id, entry in catalog.exercises.items()},
        "muscles": {id: _names(entry.data) for id, entry in catalog.muscles.items()},
        "parts": {ref: _part(catalog, ref) for ref in catalog.part_refs()},
        "references": called,
        "studies": {key: called.get(key, "") for key in catalog.studies},
    }
    return {kind: words for kind, words in found.items() if words}


def _vocabulary(vocabulary: entries.Vocabulary) -> dict[str, dict[str, str]]:
    lists: dict[str, Mapping[str, object]] = {
        kind: terms for kind, terms in vocabulary if isinstance(terms, dict)
    }
    units = sorted({unit for measure in vocabulary.measures.values() for unit in measure.units})
    return {
        "units": {
            unit: ", ".join(id for id, it in vocabulary.measures.items() if unit in it.units)
            for unit in units
        },
        **{kind: {id: _names(term) for id, term in terms.items()} for kind, terms in lists.items()},
    }


def _names(term: object) -> str:
    """The name, and the other names people know it by."""
    name: str = getattr(term, "name", "") or getattr(term, "asks", "")
    return ", ".join([name, *getattr(term, "also_called", ())])


def _part(catalog: Catalog, ref: str) -> str:
    muscle, part = catalog.muscles[ref.partition("/")[0]].data, catalog.part(ref)
    return _names(part) if part is muscle else f"{muscle.name}: {_names(part)}"
