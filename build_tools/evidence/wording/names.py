"""Names of exercises, parts and counts as they stand inside a sentence."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...catalog.load import Catalog
from ...english import listed
from ..treatments import exercise_of, version_of

_OF = " of the "
#: A part and its muscle in one name: "Triceps, long head", "Triceps long head", "Long head of triceps".
_PART_OF = (
    re.compile(r"(?P<whole>.+?), (?P<part>.+)"),
    re.compile(r"(?P<whole>\w.+) (?P<part>\w+ head)"),
    re.compile(r"(?P<part>.+ (?:part|head)) of (?:the )?(?P<whole>.+)"),
)


def joined(parts: Sequence[str]) -> str:
    """Parts in a row, with the muscle that all belong to said once: ``the long head and the short head of the biceps``."""
    return listed([*(without(part, parts[-1]) for part in parts[:-1]), parts[-1]])


def without(part: str, other: str) -> str:
    """A part beside another of the same muscle, without the muscle: ``the long head``."""
    name, of, muscle = part.partition(_OF)
    return name if of and muscle == other.partition(_OF)[2] else part


class Names:
    """Names of one catalog's exercises, parts and studies."""

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._proper = set(catalog.vocabulary.data.proper_nouns) if catalog.vocabulary else set()

    def exercise(self, id: str) -> str:
        """``the seated leg curl``, ``the preacher curl (over the lower half)``; an unknown id stands as it is."""
        entry = self._catalog.exercises.get(exercise_of(id))
        if entry is None:
            return id
        version = self.version(id)
        return f"the {self.inside(entry.data.name)}" + (f" ({version})" if version else "")

    def version(self, treatment: str) -> str | None:
        """How a treatment's version reads after the exercise's name; ``None`` for the exercise as such."""
        id = version_of(treatment)
        versions = self._catalog.vocabulary.data.versions if self._catalog.vocabulary else {}
        return (versions[id].name if id in versions else id) if id else None

    def part(self, ref: str) -> str:
        """``the semitendinosus``; an unknown reference stands as it is.

        What coaches call it comes first. Else a part of a muscle is said as one speaks: ``the long head of the triceps`` for "Triceps, long head" and
        "Triceps long head".
        """
        part = self._catalog.part(ref)
        if part is None:
            return ref
        if part.coaches:
            return f"the {self.inside(part.coaches)}"
        for form in _PART_OF:
            if found := form.fullmatch(part.name):
                return f"the {self.inside(found['part'])} of the {self.inside(found['whole'])}"
        return f"the {self.inside(part.name)}"

    def parts(self, refs: list[str] | tuple[str, ...]) -> str:
        """``the semitendinosus and the semimembranosus``; of one muscle ``the long head and the short head of the triceps``."""
        return joined([self.part(ref) for ref in refs])

    def inside(self, name: str) -> str:
        """A name inside a sentence: its first letter small unless the first word is a proper noun."""
        first = name.split()[0].rstrip(",")
        return (
            name
            if first in self._proper or not first[1:2].islower()
            else name[0].lower() + name[1:]
        )
