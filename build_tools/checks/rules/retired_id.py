"""A retired id has a living successor or a reason, and is not in use again.

Why: published addresses never die. A retired address leads its visitors to the
successor, or says why there is none; if the successor is retired too, or does not
exist, they land nowhere.

Instead: name an entry that exists. When a successor is retired in its turn, point
both at the newest one. What goes on under no other id stands under `retired:`, with
its name, the day and the reason, and there alone.

Fails: moved.yaml 2:14 3:13 4:3 6:17
    exercises:
      lamp-curl: crate-crul
      box-curl: lamp-curl
      cable-curl: crate-curl
    parts:
      lantern/wick: lantern/third-head

Fails: moved.yaml 4:5 5:37
    exercises: {box-curl: crate-curl}
    retired:
      exercises:
        box-curl: {name: Box curl, day: 2026-01-05, because: No box was ever the same.}
        pit-curl: {name: Pit curl, day: 2130-01-05, because: The pit was filled.}

Passes: moved.yaml
    exercises: {lamp-curl: crate-curl, box-curl: crate-curl}
    parts: {lantern/wick: lantern/long-head}
    sources: {wick2029: wick2030}
    retired:
      exercises:
        pit-curl: {name: Pit curl, day: 2026-01-05, because: The pit was filled., parts: [lantern/long-head]}
"""

from collections.abc import Iterator

from build_tools.catalog.load import Catalog
from build_tools.checks.rule import Context, Problem, suggest

#: List in moved.yaml -> the catalog's collection; parts stand in their muscles.
KINDS = {"exercises": "exercises", "muscles": "muscles", "parts": "", "sources": "references"}


def check(context: Context) -> Iterator[Problem]:
    """Retired ids that live, successors that do not, and days to come."""
    catalog, moved = context.catalog, context.catalog.moved
    if moved is None:
        return
    for name in KINDS:
        successors, without = getattr(moved.data, name), getattr(moved.data.retired, name)
        for old, new in successors.items():
            if _lives(catalog, name, old):
                yield Problem(
                    moved.spot(name, old, key=True),
                    f"`{old}` is retired here, yet it exists",
                    "remove this line, or give the living entry another id",
                )
            elif new in successors or new in without:
                yield Problem(
                    moved.spot(name, old),
                    f"the successor `{new}` is retired itself",
                    f"write the living successor of `{new}`, or move this id to `retired:`",
                )
            elif _is_absent(context, name, new):
                yield Problem(
                    moved.spot(name, old),
                    f"the successor `{new}` does not exist",
                    suggest(new, _known(catalog, name), f"name one of the {name} that exist"),
                )
        for old, gone in without.items():
            here = ("retired", name, old)
            if _lives(catalog, name, old):
                yield Problem(
                    moved.spot(*here, key=True),
                    f"`{old}` is retired here, yet it exists",
                    "remove these lines, or give the living entry another id",
                )
            elif old in successors:
                yield Problem(
                    moved.spot(*here, key=True),
                    f"`{old}` has a successor above, and none here",
                    "keep one of the two",
                )
            if gone.day > context.today:
                yield Problem(
                    moved.spot(*here, "day"),
                    f"`{old}` is to be taken out on a day to come",
                    "write the day on which it was taken out",
                )


def _known(catalog: Catalog, name: str) -> list[str]:
    return catalog.part_refs() if name == "parts" else list(getattr(catalog, KINDS[name]))


def _lives(catalog: Catalog, name: str, id: str) -> bool:
    if name == "parts":
        return catalog.part(id) is not None
    return catalog.exists(KINDS[name], id)


def _is_absent(context: Context, name: str, id: str) -> bool:
    if name == "parts":
        muscle = id.partition("/")[0]
        return id not in context.catalog.part_refs() and (
            muscle in context.catalog.muscles or context.is_absent("muscles", muscle)
        )
    return context.is_absent(KINDS[name], id)
