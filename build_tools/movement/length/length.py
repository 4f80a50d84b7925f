"""Relative muscle length over a repetition, from the tables in ``catalog/model/``.

A length is told as a share of the muscle's own range: 0 is its shortest and 1 its
longest over the joint angles it is trusted for. Shares of two muscles cannot be
compared, and nothing beyond those angles is guessed. Millimetres never leave this
module, and what is published is rounded to 10 % (``percent``).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import floor

from ...catalog.entries import Exercise, Movement
from ...catalog.load import Catalog, Loaded
from ..posture.pose import Angles, between, key_angles, view_of
from . import published
from .grid import MuscleGrid, OutOfRange

#: Steps between two key frames, evenly spaced in time.
STEPS = 60
#: All of a repetition.
WHOLE = (0.0, 1.0)
#: Shares from which a length counts as long, and up to which as short.
LONG, SHORT = 2 / 3, 1 / 3


@dataclass(frozen=True)
class Missing:
    """There is no value, and why: a clause for a page, without a full stop."""

    why: str


@dataclass(frozen=True)
class Repetition:
    """One muscle over one repetition; shares (0-1) of its own range, not rounded."""

    shares: tuple[float, ...]
    """Evenly spaced in time, start to end."""

    @property
    def start(self) -> float:
        """Where the repetition starts."""
        return self.shares[0]

    @property
    def end(self) -> float:
        """Where it ends."""
        return self.shares[-1]

    @property
    def shortest(self) -> float:
        """The lowest share on the way."""
        return min(self.shares)

    @property
    def longest(self) -> float:
        """The highest share on the way."""
        return max(self.shares)

    @property
    def mean(self) -> float:
        """Mean over time; between samples the share is taken as straight."""
        inner = sum(self.shares) - (self.start + self.end) / 2
        return inner / (len(self.shares) - 1)

    @property
    def words(self) -> str:
        """``mostly long``, ``from short to long``: a third of the range at either end counts as short or long."""
        if self.shortest >= LONG:
            return "long throughout"
        if self.longest <= SHORT:
            return "short throughout"
        first, last = _third(self.start), _third(self.end)
        if {first, last} == {"short", "long"}:
            return f"from {first} to {last}"
        if self.mean >= LONG:
            return "mostly long"
        if self.mean <= SHORT:
            return "mostly short"
        return "around the middle of its range" if first == last else f"from {first} to {last}"


def _third(share: float) -> str:
    return "long" if share >= LONG else "short" if share <= SHORT else "middling"


def percent(share: float) -> int:
    """A share as it is published: per cent of the muscle's own range, to the nearest ten."""
    return floor(share * 10 + 0.5) * 10


class Lengths:
    """The muscles of a catalog's model that pass their checks, by the part they stand for.

    Muscles without a part in the catalog are known by their own id in ``muscles.yaml``.
    """

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._grids: dict[str, MuscleGrid] = {}
        self._failed: set[str] = set()
        self._joints: dict[str, set[str]] = {}
        for id, muscle in published.checked(catalog).items():
            ref = muscle.grid.muscle.part or id
            if muscle.passes:
                self._grids[ref] = muscle.grid
                self._joints[ref] = set(muscle.grid.muscle.box)
            else:
                self._failed.add(ref)

    def grid(self, part: str) -> MuscleGrid | None:
        """The table of a part that passes its checks."""
        return self._grids.get(part)

    def relative(self, part: str, angles: Mapping[str, float]) -> float | Missing:
        """Share (0-1) of the part's own range at these joint angles (degrees; 0 where not given)."""
        grid = self._grids.get(part)
        if grid is None:
            return Missing(self._why_none(part))
        short, long = grid.extremes
        try:
            return min(1.0, max(0.0, (grid.length(angles) - short) / (long - short)))
        except OutOfRange as error:
            return Missing(str(error))

    def along(self, part: str, path: Sequence[Mapping[str, float]]) -> Repetition | Missing:
        """The part along joint angles evenly spaced in time (two or more); missing when any of them is."""
        shares = []
        for angles in path:
            share = self.relative(part, angles)
            if isinstance(share, Missing):
                return share
            shares.append(share)
        return Repetition(tuple(shares))

    def over(
        self, part: str, movement: Movement, stretch: Sequence[float] = WHOLE
    ) -> Repetition | Missing:
        """The part over one repetition of a movement, or over a stretch of it: shares of its path, 0 the start and 1 the end."""
        if across := view_of(movement).across:
            return Missing(f"the model's tables hold no movement {across}")
        if self._joints.get(part, set()) & set(movement.out_of_plane):
            return Missing("the joints that it crosses also move out of the drawn plane")
        if (
            self._catalog.vocabulary is None
            or movement.position not in self._catalog.vocabulary.data.positions
        ):
            return Missing("the position is not known")
        keys = key_angles(movement, self._catalog.vocabulary.data)
        # The key frames first: a reason then names an angle that somebody wrote, not one on the way there.
        ends = keys if tuple(stretch) == WHOLE else [between(keys, time) for time in stretch]
        at_ends = self.along(part, ends)
        return at_ends if isinstance(at_ends, Missing) else self.along(part, path(keys, stretch))

    def of(self, part: str, treatment: str) -> Repetition | Missing:
        """The part over an exercise (``preacher-curl``) or a version of it (``preacher-curl@lower-half``) that states a range."""
        exercise, _, version = treatment.partition("@")
        entry = self._catalog.exercises.get(exercise)
        if entry is None:
            return Missing("the exercise is not known")
        if not version:
            return self.over(part, entry.data.movement)
        versions = self._catalog.vocabulary.data.versions if self._catalog.vocabulary else {}
        known = versions.get(version)
        stretch = entry.data.version_ranges.get(version) or (known.range if known else None)
        if stretch is None:
            return Missing("this version does not say over which range it runs")
        return self.over(part, entry.data.movement, stretch)

    def _why_none(self, part: str) -> str:
        if part in self._failed:
            return "the model disagrees with what was published on this muscle"
        if "/" not in part and any(ref.startswith(f"{part}/") for ref in self._grids):
            return "a group of parts has no length of its own"
        return "no model value is available for this muscle"


def path(keys: Sequence[Angles], stretch: Sequence[float] = WHOLE) -> list[Angles]:
    """Joint angles evenly spaced in time, ``STEPS`` steps for each two key frames; joints left out are at 0 degrees.

    ``stretch`` is where along the repetition they start and end, shares of its time from 0 to 1.
    """
    first, last = stretch
    steps = STEPS * (len(keys) - 1)
    return [between(keys, first + (last - first) * step / steps) for step in range(steps + 1)]


class MeanLengths:
    """What the evidence engine asks of a catalog's model."""

    def __init__(self, catalog: Catalog, earlier: MeanLengths | None = None) -> None:
        """``earlier`` are those of a state before; what they say of exercises that are the same objects is kept."""
        self._catalog = catalog
        self._known: dict[tuple[str, str], float | str] = {}
        if earlier and _models_alike(catalog, earlier._catalog):
            self._known = {
                asked: told
                for asked, told in earlier._known.items()
                if self._exercise(asked[0]) is earlier._exercise(asked[0])
            }

    def __call__(self, treatment: str, part: str) -> float | str:
        """The mean share of a part over an exercise or a version of it, or why there is none."""
        if (treatment, part) not in self._known:
            found = self._lengths.of(part, treatment)
            self._known[treatment, part] = found.why if isinstance(found, Missing) else found.mean
        return self._known[treatment, part]

    @cached_property
    def _lengths(self) -> Lengths:
        # Not before it is asked: an unsound catalog must reach its checks first.
        return Lengths(self._catalog)

    def _exercise(self, treatment: str) -> Loaded[Exercise] | None:
        return self._catalog.exercises.get(treatment.partition("@")[0])


def _models_alike(now: Catalog, then: Catalog) -> bool:
    """Whether two states of a catalog say the same of a muscle's length at the same angles."""
    return (
        now.model is then.model
        and now.vocabulary is then.vocabulary
        and now.length_tables == then.length_tables
    )
