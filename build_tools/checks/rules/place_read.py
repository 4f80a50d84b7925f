"""A cited place is one that can have been read, and its first word is one that places have.

Why: a table cited from a paper of which the abstract alone was read is a number that
nobody here has seen. A misspelt place cannot be found again.

Instead: start with where it stands: abstract, Table 2, Figure 1, p. 830, section 3.1,
results. Where a table was seen beside the abstract, say so in the record's `readat`.

Fails: muscles/lantern.yaml 3:33 5:33
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: abstarct}]
      - say: It has two long parts.
        cites: [{key: wick2030, at: Table 2}]

Fails: studies/wick2030.yaml 5:9
    results:
      - parts: [lantern/long-head]
        measure: mri-volume
        unit: "%"
        at: Table 3, whole group
        values: {seated: {change_percent: 14}}

Fails: studies/wick2030.yaml 2:56
    appraisal:
      fair-lamp: {answer: yes, because: Drawn by lot., at: methods}
      told-all: {answer: not stated, at: abstract}

Passes: muscles/lantern.yaml
    facts:
      - say: It has two parts.
        cites: [{key: wick2030, at: "abstract, second sentence"}, {key: glow2031, at: Table 2}]
"""

from collections.abc import Callable, Iterator
from functools import partial

from build_tools.catalog.finding import Spot
from build_tools.checks.places import beyond_the_abstract, first_word, is_place, nearest_place
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Places that nobody can find, and places that nobody here has read."""
    catalog = context.catalog
    for spot, key, at in _places(context):
        reference = catalog.references.get(key)
        if not is_place(at):
            yield Problem(spot(), f"`{first_word(at)}` is no place in a source", nearest_place(at))
        elif reference is not None and (
            unread := beyond_the_abstract(at, reference, catalog.references)
        ):
            yield Problem(
                spot(),
                f"`{unread}` was not read: of `{key}` the record says `read = {{{reference.read}}}`",
                "cite the place that was read, or say in the record's `readat` that this one was seen",
            )


def _places(context: Context) -> Iterator[tuple[Callable[[], Spot], str, str]]:
    """How to find each place (composed only when asked for), the key it belongs to, and its words."""
    for statement in context.statements:
        for index, citation in enumerate(statement.basis.cites):
            if citation.at is not None:
                yield partial(statement.spot, "cites", index, "at"), citation.key, citation.at
    for key, study in context.catalog.studies.items():
        for index, result in enumerate(study.data.results):
            if result.at is not None:
                yield partial(study.spot, "results", index, "at"), key, result.at
        for id, answer in (study.data.appraisal or {}).items():
            yield partial(study.spot, "appraisal", id, "at"), key, answer.at
