"""Every cited key stands in the bibliography.

Why: a citation to nowhere is no citation; most are a misspelt key.

Instead: correct the key, or add the record to references.bib.

Fails: muscles/lantern.yaml 3:19
    facts:
      - say: It has two parts.
        cites: [{key: wick2013, at: abstract}]

Fails: studies/glow2031.yaml 5:16
    results:
      - parts: [lantern/short-head]
        measured: part
        measure: surface-emg
        via: {key: wick2013, file: the data table}
        contrasts: [{of: seated, against: standing, favours: of, test: between}]

Passes: muscles/lantern.yaml
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: abstract}]
"""

from collections.abc import Iterator

from build_tools.catalog import moved
from build_tools.catalog.load import Catalog
from build_tools.checks.rule import Context, Problem, suggest


def _help(catalog: Catalog, key: str) -> str:
    return moved.instead(catalog, "sources", key) or suggest(
        key, catalog.references, "add its record to references.bib"
    )


def check(context: Context) -> Iterator[Problem]:
    """Citations, and carriers of second-hand numbers, without a record."""
    catalog = context.catalog
    for study in catalog.studies.values():
        for index, result in enumerate(study.data.results):
            if result.via and context.is_absent("references", result.via.key):
                yield Problem(
                    study.spot("results", index, "via", "key"),
                    f"there is no reference `{result.via.key}`",
                    _help(catalog, result.via.key),
                )
    for statement in context.statements:
        for index, citation in enumerate(statement.basis.cites):
            if context.is_absent("references", citation.key):
                yield Problem(
                    statement.spot("cites", index, "key"),
                    f"there is no reference `{citation.key}`",
                    _help(catalog, citation.key),
                )
