"""One place of a source is cited once in a statement.

Why: the same place twice looks like two sources to a hurried reader and adds
nothing for a careful one.

Instead: remove the repetition, or give the second place its own name.

Fails: muscles/lantern.yaml 3:40
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: p. 4}, {key: wick2030, at: p. 4}]

Passes: muscles/lantern.yaml
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: p. 4}, {key: wick2030, at: p. 9}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Second citations of one place."""
    for statement in context.statements:
        cites = statement.basis.cites
        for index, citation in enumerate(cites):
            if citation in cites[:index]:
                yield Problem(
                    statement.spot("cites", index),
                    f"`{citation.key}` is cited for this place a second time",
                    "remove this citation, or name the other place in `at:`",
                )
