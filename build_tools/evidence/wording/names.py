"""Names of exercises, parts and counts as they stand inside a sentence."""

from __future__ import annotations

from ...catalog.load import Catalog
from ...english import listed
from ..treatments import exercise_of, version_of


class Names:
    """Names of one catalog's exercises, parts and studies."""

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._proper = set(catalog.vocabulary.data.proper_nouns) if catalog.vocabulary else set()

    def exercise(self, id: str) -> str:
        """``the seated leg curl``, ``the preacher curl, over the lower half``; an unknown id stands as it is."""
        entry = self._catalog.exercises.get(exercise_of(id))
        if entry is None:
            return id
        version = self.version(id)
        return f"the {self.inside(entry.data.name)}" + (f", {version}" if version else "")

    def version(self, treatment: str) -> str | None:
        """How a treatment's version reads after the exercise's name; ``None`` for the exercise as such."""
        id = version_of(treatment)
        versions = self._catalog.vocabulary.data.versions if self._catalog.vocabulary else {}
        return (versions[id].name if id in versions else id) if id else None

    def part(self, ref: str) -> str:
        """``the semitendinosus``; ``the long head of the triceps`` for "Triceps, long head"; an unknown reference stands as it is."""
        part = self._catalog.part(ref)
        if part is None:
            return ref
        whole, comma, which = part.name.partition(", ")
        return (
            f"the {self.inside(which)} of the {self.inside(whole)}"
            if comma
            else f"the {self.inside(whole)}"
        )

    def parts(self, refs: list[str] | tuple[str, ...]) -> str:
        """``the semitendinosus and the semimembranosus``."""
        return listed([self.part(ref) for ref in refs])

    def inside(self, name: str) -> str:
        """A name inside a sentence: its first letter small unless the first word is a proper noun."""
        first = name.split()[0].rstrip(",")
        return (
            name
            if first in self._proper or not first[1:2].islower()
            else name[0].lower() + name[1:]
        )
