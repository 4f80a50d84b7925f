"""Every study file has its reference.

Why: numbers without a bibliographic record cannot be followed to the paper.

Instead: name the study file after the reference's key, and add the record to
references.bib.

Fails: studies/wick2031.yaml 1:1
    says: The long head grew more from the seated curl.

Passes: studies/wick2030.yaml
    says: The long head grew more from the seated curl.
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """Study files whose name is no key of the bibliography."""
    catalog = context.catalog
    for key, study in catalog.studies.items():
        if context.is_absent("references", key):
            yield Problem(
                study.spot(),
                f"this study has no reference `{key}`",
                suggest(key, catalog.references, f"add @article{{{key}, ...}} to references.bib"),
            )
