"""Every muscle of the model names parts, tables, columns, joints, angles and sources that exist.

Why: a misspelt part would leave its page without lengths, and an angle that is not
in the table would be guessed.

Instead: use ids of the catalog and of muscles.yaml, and angles that stand in the
table. The box names every joint that the muscle acts on and holds 0 degrees.

Fails: model/muscles.yaml 4:11 6:13 7:16 9:31 9:62
    muscles:
      long-head:
        name: Lantern muscle, long head
        part: lantern/longhead
        table: lamp
        column: lung
        box: {hip: [-15, 120], knee: [0, 120]}
        acts: {hip: extends, knee: flexes}
        arms: [{joint: hip, over: [0, 95], mm: [28, 34], source: wack}]

Fails: model/muscles.yaml 4:12 12:11 15:11 17:20
    muscles:
      first:
        name: Lantern muscle, long head
        table: lump
        column: long
        box: {hip: [-20, 120]}
        acts: {hip: extends}
        arms: [{joint: hip, over: [0, 100], mm: [28, 34], source: wick}]
        part: lantern/long-head
      second:
        name: The same part once more
        part: lantern/long-head
        table: lamp
        column: long
        acts: {hip: extends, knee: flexes}
        box: {knee: [0, 120]}
        arms: [{joint: hip, over: [0, 100], mm: [28, 34], source: wick}]

Fails: model/muscles.yaml 3:12
    tables:
      lamp:
        model: lamplightr
        axes:
          - {joint: hip, coordinate: hip, span: [-20, 120], step: 20}
          - {joint: knee, coordinate: knee, span: [0, 120], step: 20}

Passes: model/muscles.yaml
    muscles:
      reserve:
        name: A muscle that no page shows yet
        table: lamp
        column: short
        box: {knee: [0, 120]}
        acts: {knee: flexes}
        arms: [{joint: knee, over: [0, 100], mm: [28, 34], source: wick}]
"""

from collections.abc import Collection, Iterator

from build_tools.catalog.entries import Model, ModelMuscle
from build_tools.catalog.length_table import Grid
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """What a muscle or a table names and nothing holds."""
    entry = context.catalog.model
    if entry is None:
        return
    yield from _tables(context, entry)
    parts: dict[str, str] = {}
    for id, muscle in entry.data.muscles.items():
        here: Path = ("muscles", id)
        if muscle.part:
            yield from _part(
                context, entry, (*here, "part"), muscle.part, parts.setdefault(muscle.part, id), id
            )
        yield from _known(entry, (*here, "table"), muscle.table, entry.data.tables, "table")
        grid = context.catalog.length_tables.get(muscle.table)
        if grid:
            yield from _known(
                entry, (*here, "column"), muscle.column, grid.lengths, "column in the table"
            )
            yield from _box(entry, here, muscle, grid)
        yield from _checked(entry, here, muscle, grid)


def _tables(context: Context, entry: Loaded[Model]) -> Iterator[Problem]:
    vocabulary = context.catalog.vocabulary
    for id, table in entry.data.tables.items():
        yield from _known(entry, ("tables", id, "model"), table.model, entry.data.models, "model")
        for index, axis in enumerate(table.axes):
            if vocabulary:
                yield from _known(
                    entry,
                    ("tables", id, "axes", index, "joint"),
                    axis.joint,
                    vocabulary.data.joints,
                    "joint",
                )


def _part(
    context: Context, entry: Loaded[Model], path: Path, ref: str, first: str, id: str
) -> Iterator[Problem]:
    muscle = ref.partition("/")[0]
    if muscle not in context.catalog.muscles and not context.is_absent("muscles", muscle):
        return
    if "/" not in ref or context.catalog.part(ref) is None:
        known = [known for known in context.catalog.part_refs() if "/" in known]
        yield Problem(
            entry.spot(*path),
            f"there is no muscle part `{ref}`",
            suggest(ref, known, "leave `part:` out until the catalog has one"),
        )
    elif first != id:
        yield Problem(
            entry.spot(*path),
            f"`{first}` stands for this part already",
            "let one muscle of the model stand for a part",
        )


def _box(entry: Loaded[Model], here: Path, muscle: ModelMuscle, grid: Grid) -> Iterator[Problem]:
    if set(muscle.box) != set(muscle.acts):
        yield Problem(
            entry.spot(*here, "acts"),
            "`acts:` and `box:` do not name the same joints",
            "name every joint that it crosses in both",
        )
    for joint, span in muscle.box.items():
        path = (*here, "box", joint)
        if joint not in grid.joints:
            yield Problem(
                entry.spot(*path, key=True),
                f"the table has no joint `{joint}`",
                f"its joints: {', '.join(grid.joints)}",
            )
        elif not _on_grid(span, grid, joint) or not span[0] <= 0 <= span[1]:
            yield Problem(
                entry.spot(*path),
                "this range does not run between two angles of the table, with 0 inside",
                _angles(grid, joint),
            )


def _checked(
    entry: Loaded[Model], here: Path, muscle: ModelMuscle, grid: Grid | None
) -> Iterator[Problem]:
    for index, arm in enumerate(muscle.arms):
        path = (*here, "arms", index)
        yield from _known(entry, (*path, "joint"), arm.joint, muscle.box, "joint in the box")
        yield from _known(entry, (*path, "source"), arm.source, entry.data.sources, "source")
        box = muscle.box.get(arm.joint)
        if (
            grid
            and box
            and arm.joint in grid.joints
            and not (_on_grid(arm.over, grid, arm.joint) and _inside(arm.over, box))
        ):
            yield Problem(
                entry.spot(*path, "over"),
                "these angles are not two of the table inside the box",
                _angles(grid, arm.joint),
            )
        if not 0 < arm.mm[0] <= arm.mm[1]:
            yield Problem(
                entry.spot(*path, "mm"),
                "these are not a lowest and a highest size",
                "write the smaller first, both above 0",
            )
    for index, order in enumerate(muscle.orders):
        for side in ("more", "less"):
            yield from _known(
                entry,
                (*here, "orders", index, side),
                getattr(order, side),
                muscle.box,
                "joint in the box",
            )
        yield from _known(
            entry, (*here, "orders", index, "source"), order.source, entry.data.sources, "source"
        )


def _known(
    entry: Loaded[Model], path: Path, word: str, known: Collection[str], called: str
) -> Iterator[Problem]:
    if word not in known:
        yield Problem(
            entry.spot(*path),
            f"there is no {called} `{word}`",
            suggest(word, known, f"write one of: {', '.join(known)}"),
        )


def _on_grid(span: list[float], grid: Grid, joint: str) -> bool:
    angles = grid.angles[grid.joints.index(joint)]
    return span[0] in angles and span[1] in angles and span[0] < span[1]


def _inside(span: list[float], box: list[float]) -> bool:
    return box[0] <= span[0] and span[1] <= box[1]


def _angles(grid: Grid, joint: str) -> str:
    angles = grid.angles[grid.joints.index(joint)]
    return f"the table runs from {angles[0]:g} to {angles[-1]:g} degrees in steps of {angles[1] - angles[0]:g}"
