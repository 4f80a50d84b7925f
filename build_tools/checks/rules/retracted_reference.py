"""A retracted work is cited only as retracted.

Why: what was taken back bears nothing. Its numbers never count here; a citation that
does not say so would lend weight that is gone.

Instead: cite something else, or end the place with the word retracted where the
statement speaks of the retraction itself.

Fails: muscles/lantern.yaml 3:13
    facts:
      - say: It has two parts.
        cites: [{key: snuffed2029, at: abstract}]

Passes: muscles/lantern.yaml
    facts:
      - say: A report of a third part was taken back.
        cites: [{key: snuffed2029, at: "abstract, retracted"}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Citations of retracted works that do not say so."""
    for statement in context.statements:
        for index, citation in enumerate(statement.basis.cites):
            reference = context.catalog.references.get(citation.key)
            if reference and reference.retracted and "retracted" not in (citation.at or ""):
                yield Problem(
                    statement.spot("cites", index),
                    f"`{citation.key}` was retracted",
                    "cite another work, or write the place as e.g. `at: abstract, retracted`",
                )
