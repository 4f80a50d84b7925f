"""What stands once with a concern and holds for everything that names it: go-aheads, signs that need emergency help, signs to tell later."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from . import entries
from .fixed_words import fixed_words

_WORDS = fixed_words("client")
#: Heads the signs wherever they are shown; the lines of the catalog go on from it.
HELP_AT_ONCE: str = _WORDS["help_at_once"]
#: Heads the handbook's own lines of when a client stops.
STOP: str = _WORDS["stop_and_tell"]
#: Heads the go-aheads.
BEFORE: str = _WORDS["before"]
#: Heads what shows in the hours and days after.
AFTERWARDS: str = _WORDS["afterwards"]


@dataclass(frozen=True)
class Care:
    """The lines of some concerns, in the vocabulary's order."""

    before: list[entries.CareLine]
    help_at_once: list[entries.CareLine]
    afterwards: list[entries.CareLine]

    @property
    def lines(self) -> list[entries.CareLine]:
        """All of them."""
        return [*self.before, *self.help_at_once, *self.afterwards]


def named(exercise: entries.Exercise) -> frozenset[str]:
    """Ids of the concerns that its cautions speak of."""
    return frozenset(concern for caution in exercise.cautions for concern in caution.concerns)


def care(concerns: Collection[str], vocabulary: entries.Vocabulary) -> Care:
    """The lines that belong to these concerns; ids that the vocabulary does not know are passed over."""
    found = [concern for id, concern in vocabulary.concerns.items() if id in concerns]
    return Care(
        [c.before for c in found if c.before],
        [line for c in found for line in c.help_at_once],
        [c.afterwards for c in found if c.afterwards],
    )
