"""A study of arms says how people, limbs or the order of exercises were allocated.

Why: groups that people chose themselves can differ before the first repetition, and a
fixed order of exercises tires the later ones. How sure an answer is rests on it.

Instead: write `allocation:` random, counterbalanced or self-chosen, as the paper says;
`not stated` when what was read does not say.

Fails: studies/wick2030.yaml 1:9
    design: within-participant
    allocation:

Passes: studies/wick2030.yaml
    allocation: random
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Studies of a design that allocates, without a word on how."""
    designs = context.catalog.vocabulary.data.designs if context.catalog.vocabulary else {}
    for study in context.catalog.studies.values():
        design = designs.get(study.data.design)
        if design and design.allocates and study.data.allocation is None:
            yield Problem(
                study.spot("design"),
                f"a `{study.data.design}` study allocates, but this one does not say how",
                "add `allocation:` random, counterbalanced, self-chosen or not stated",
            )
