"""A muscle of the model held against what was published on it. One that fails is not shown.

Three checks. *Sides*: at every joint, over the whole box, the muscle pulls to the
side that anatomy gives it. *Arms*: its mean moment arm over the published angles
may differ from the published one only so far that correcting it would move no
relative length in the whole box by ``STEP``, the step in which lengths are
published; relative length depends on one joint against the other, so this is what
counts, and an arm wrong by ``FACTOR`` or more is refused whatever it moves.
*Orders*: where a paper says which joint changes its length more, it does so here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from ...catalog.entries import Model, PublishedArm, PublishedOrder
from ...catalog.entry_memory import once_per_entry
from ...catalog.length_table import Grid
from ...catalog.load import Catalog, Loaded
from .grid import MuscleGrid

#: Share of the muscle's own range: lengths are published to the nearest 10 %.
STEP = 0.1
#: Convention: papers on one tendon differ by a third (35 to 37 mm and 48 mm for the Achilles tendon); twice is another muscle.
FACTOR = 2.0
#: mm by which an arm may lie on the wrong side: rounding to 0.1 mm over 10 degrees makes up to 1, and arms near 0 move little length.
WRONG_SIDE = 5.0
#: Stands for a source where the sides are concerned.
ANATOMY = "standard anatomy"


@dataclass(frozen=True)
class Check:
    """One check with what came of it, in words."""

    what: str
    published: str
    ours: str
    source: str
    """Id of the source in ``muscles.yaml``, or ``ANATOMY``."""
    passed: bool
    moves: float = 0.0
    """Share of the own range by which correcting the arm would move a relative length at most."""


class CheckedMuscle(NamedTuple):
    """A muscle of the model with its checks, in the order of its entry."""

    grid: MuscleGrid
    checks: tuple[Check, ...]

    @classmethod
    def of(cls, grid: MuscleGrid) -> CheckedMuscle:
        """A muscle with all checks made."""
        return cls(grid, tuple(checks(grid)))

    @property
    def passes(self) -> bool:
        """Whether it may be shown."""
        return all(check.passed for check in self.checks)


def checked(catalog: Catalog) -> dict[str, CheckedMuscle]:
    """Id in ``muscles.yaml`` -> each muscle whose lengths can be read."""
    if catalog.model is None:
        return {}
    tables = (catalog.length_tables.get(m.table) for m in catalog.model.data.muscles.values())
    return _checked(catalog.model, *tables)


@once_per_entry
def _checked(model: Loaded[Model], *tables: Grid | None) -> dict[str, CheckedMuscle]:
    found = {}
    for (id, muscle), table in zip(model.data.muscles.items(), tables, strict=True):
        if table and muscle.column in table.lengths:
            found[id] = CheckedMuscle.of(MuscleGrid(muscle, table))
    return found


def checks(grid: MuscleGrid) -> Iterator[Check]:
    """Every check of a muscle, in the order of its entry."""
    muscle = grid.muscle
    for joint, acts in muscle.acts.items():
        yield _side(grid, joint, acts)
    for arm in muscle.arms:
        yield _arm(grid, arm)
    for order in muscle.orders:
        yield _order(grid, order)


def mean_arm(grid: MuscleGrid, arm: PublishedArm) -> float:
    """Size (mm) of the muscle's mean arm over the published angles, with the other joint at 0 degrees."""
    found = grid.arms(arm.joint, *arm.over)
    return abs(sum(found)) / len(found)


def moved(grid: MuscleGrid, joint: str, scale: float) -> float:
    """Largest change of a relative length (share of the own range) in the box when all arms at ``joint`` grow by ``scale``."""
    before, after = _relative(grid, joint, 1.0), _relative(grid, joint, scale)
    return max(abs(a - b) for a, b in zip(before, after, strict=True))


def _relative(grid: MuscleGrid, joint: str, scale: float) -> list[float]:
    lengths = []
    for angles in grid.box_angles():
        base = grid.length({**angles, joint: 0.0})
        lengths.append(base + scale * (grid.length(angles) - base))
    short, long = min(lengths), max(lengths)
    return [(length - short) / (long - short) for length in lengths]


def _side(grid: MuscleGrid, joint: str, acts: str) -> Check:
    sign = 1 if acts == "flexes" else -1
    low, high = grid.muscle.box[joint]
    arms = [
        sign * arm for other in grid.others(joint) for arm in grid.arms(joint, low, high, other)
    ]
    return Check(
        f"side at the {joint}",
        f"{acts} it",
        f"arm {_mm(min(arms))} to {_mm(max(arms))} mm that way, whole range",
        ANATOMY,
        min(arms) >= -WRONG_SIDE,
    )


def _arm(grid: MuscleGrid, arm: PublishedArm) -> Check:
    low, high = arm.mm
    ours, every = mean_arm(grid, arm), [abs(found) for found in grid.arms(arm.joint, *arm.over)]
    scale = min(max(ours, low), high) / ours
    moves = moved(grid, arm.joint, scale)
    spread = f" ({_mm(min(every))} to {_mm(max(every))})" if len(every) > 2 else ""
    return Check(
        f"arm at the {arm.joint}, {arm.over[0]:g} to {arm.over[1]:g} degrees",
        f"{low:g} mm" if low == high else f"{low:g} to {high:g} mm",
        f"mean {_mm(ours)}{spread} mm",
        arm.source,
        1 / FACTOR < scale < FACTOR and moves < STEP,
        moves,
    )


def _order(grid: MuscleGrid, order: PublishedOrder) -> Check:
    more, less = (
        max(abs(arm) for arm in grid.arms(joint, *grid.muscle.box[joint]))
        for joint in (order.more, order.less)
    )
    return Check(
        f"length changes more with the {order.more} than with the {order.less}",
        "yes",
        f"longest arms {_mm(more)} against {_mm(less)} mm",
        order.source,
        more > less,
    )


def _mm(value: float) -> str:
    return f"{round(value)}"
