"""A trial in which people trained and a muscle was measured says for how many weeks.

Why: growth takes time. Two trials of four and of twelve weeks do not say the same,
and a sentence without the weeks hides it.

Instead: add `weeks:` as the source gives it. Where what was read does not say, let it
through in exceptions.yaml with that reason.

Fails: studies/wick2030.yaml 1:1
    weeks:

Passes: studies/wick2030.yaml
    weeks: 12
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Growth without a length of training."""
    vocabulary = context.catalog.vocabulary
    training = (
        {id for id, design in vocabulary.data.designs.items() if design.trains}
        if vocabulary
        else set()
    )
    for study in context.catalog.studies.values():
        grew = any(
            context.outcomes.get(result.measure) == "growth" for result in study.data.results
        )
        if study.data.weeks is None and study.data.design in training and grew:
            yield Problem(
                study.spot("weeks"),
                "this study measured growth, and does not say over how many weeks",
                "add `weeks:` as the source gives it",
            )
