"""No two words of a closed list share a name.

Why: two entries of one name split what belongs together: a coach who ticks one
dumbbell does not find the exercises of the other.

Instead: keep one id, or name what differs.

Fails: vocabulary.yaml 4:15
    equipment:
      none: {name: No equipment}
      crate: {name: Wooden crate}
      box: {name: wooden crate}
      cable: {name: Cable pulley}

Fails: vocabulary.yaml 4:45
    equipment:
      none: {name: No equipment}
      crate: {name: Wooden crate}
      cable: {name: Cable pulley, also_called: [wooden crate]}

Passes: vocabulary.yaml
    equipment:
      none: {name: No equipment}
      crate: {name: Wooden crate, also_called: [box]}
      cable: {name: Cable pulley}
"""

from collections.abc import Iterator

from build_tools.checks.names import plain, term_names
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Names that another word of the list has."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None:
        return
    owners: dict[tuple[str, str], str] = {}
    for kind, id, name, path in term_names(vocabulary.data):
        owner = owners.setdefault((kind, plain(name)), id)
        if owner != id:
            yield Problem(
                vocabulary.spot(kind, id, *path),
                f"`{owner}` and `{id}` of {kind.replace('_', ' ')} have the name `{name}`",
                "keep one of the two, or name what differs",
            )
