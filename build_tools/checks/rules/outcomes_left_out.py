"""A study lists each outcome of its abstract that is not entered, and why.

Why: what is left out is chosen by somebody. A null, or a result the other way, that
silently stays out makes every answer look better than the paper does.

Instead: enter the outcome, or add it to `left_out:` with the reason; write `left_out: []`
when everything in the abstract is entered.

Fails: studies/wick2030.yaml 1:1
    says: The long head grew more.
    left_out:

Passes: studies/wick2030.yaml
    says: The long head grew more.
    left_out: [{what: strength of both curls, because: neither is an exercise of this catalog}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Studies that do not say what was left out."""
    for study in context.catalog.studies.values():
        if study.data.left_out is None:
            yield Problem(
                study.spot("says", key=True),
                "this study does not say which outcomes of its abstract are not entered",
                "add `left_out: [{what: ..., because: ...}]`, or `left_out: []` when all are entered",
            )
