"""A retired id has a living successor, and is not in use again.

Why: published addresses never die. A retired address leads its visitors to the
successor; if that is retired too, or does not exist, they land nowhere.

Instead: name an entry that exists. When a successor is retired in its turn, point
both at the newest one.

Fails: moved.yaml 2:14 3:13 4:3
    exercises:
      lamp-curl: crate-crul
      box-curl: lamp-curl
      cable-curl: crate-curl

Passes: moved.yaml
    exercises: {lamp-curl: crate-curl, box-curl: crate-curl}
    sources: {wick2029: wick2030}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem, suggest

#: List in moved.yaml -> the catalog's collection.
KINDS = {"exercises": "exercises", "muscles": "muscles", "sources": "references"}


def check(context: Context) -> Iterator[Problem]:
    """Retired ids that live, and successors that do not."""
    catalog, moved = context.catalog, context.catalog.moved
    if moved is None:
        return
    for name, kind in KINDS.items():
        retired = getattr(moved.data, name)
        for old, new in retired.items():
            if catalog.exists(kind, old):
                yield Problem(
                    moved.spot(name, old, key=True),
                    f"`{old}` is retired here, yet it exists",
                    "remove this line, or give the living entry another id",
                )
            elif new in retired:
                yield Problem(
                    moved.spot(name, old),
                    f"the successor `{new}` is retired itself",
                    f"write the living successor of `{new}`",
                )
            elif context.is_absent(kind, new):
                yield Problem(
                    moved.spot(name, old),
                    f"the successor `{new}` does not exist",
                    suggest(new, getattr(catalog, kind), f"name one of the {name} that exist"),
                )
