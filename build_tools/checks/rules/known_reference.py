"""Every cited key stands in the bibliography.

Why: a citation to nowhere is no citation; most are a misspelt key.

Instead: correct the key, or add the record to references.bib.

Fails: muscles/lantern.yaml 3:19
    facts:
      - say: It has two parts.
        cites: [{key: wick2013, at: abstract}]

Passes: muscles/lantern.yaml
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: abstract}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """Citations of keys without a record."""
    catalog = context.catalog
    for statement in context.statements:
        for index, citation in enumerate(statement.basis.cites):
            if context.is_absent("references", citation.key):
                yield Problem(statement.spot("cites", index, "key"), f"there is no reference `{citation.key}`",
                              suggest(citation.key, catalog.references, "add its record to references.bib"))
