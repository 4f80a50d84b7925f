"""A list of ids or words names each of them once.

Why: equipment or a concern that stands twice says nothing more, and a part that is
listed twice in a result would be counted twice by a hurried reader.

Instead: take the second one out.

Fails: exercises/crate-curl.yaml 1:20
    equipment: [crate, crate]

Fails: muscles/lantern.yaml 7:26
    parts:
      long-head:
        name: Lantern muscle, long head
        everyday: long lamper
        latin: Caput longum
        also_called: [big lamper]
        crosses: [hip, knee, hip]
        does: Bends the knee and straightens the hip.
        lengthened_by: Bending the hip and straightening the knee.
        facts: [{say: It is the larger of the two parts., common_practice: It is called so.}]

Passes: exercises/crate-curl.yaml
    equipment: [crate, cable]
"""

from collections.abc import Iterator

from build_tools.catalog.entries import Exercise
from build_tools.checks.rule import Context, Problem

#: Lists of exercises that have a rule of their own, which says more.
ELSEWHERE = ("swaps", "also_called")


def check(context: Context) -> Iterator[Problem]:
    """Texts that stand in their list already."""
    before: dict[tuple[object, ...], set[str]] = {}
    for entry, path, text in context.texts:
        is_elsewhere = isinstance(entry.data, Exercise) and path[0] in ELSEWHERE
        if not isinstance(path[-1], int) or is_elsewhere:
            continue
        seen = before.setdefault((id(entry), *path[:-1]), set())
        if text in seen:
            yield Problem(entry.spot(*path), f"`{text}` stands here a second time", "remove it")
        seen.add(text)
