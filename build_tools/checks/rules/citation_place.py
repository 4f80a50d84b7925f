"""Every citation says where in the source the fact stands.

Why: a source of thirty pages that is cited as a whole cannot be checked by the
next reader, and a place is the proof that somebody looked.

Instead: write the place beside the key: abstract, Table 2, p. 830, section 3.1.

Fails: muscles/lantern.yaml 3:13
    facts:
      - say: It has two parts.
        cites: [{key: wick2030}]

Passes: muscles/lantern.yaml
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: abstract}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Citations without a place."""
    for statement in context.statements:
        for index, citation in enumerate(statement.basis.cites):
            if citation.at is None:
                yield Problem(
                    statement.spot("cites", index),
                    f"`{citation.key}` is cited without a place",
                    f"write where it stands: {{key: {citation.key}, at: abstract}}, or a table, page or section",
                )
