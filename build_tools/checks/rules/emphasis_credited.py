"""A part that an exercise is said to train more gets set credit from it.

Why: the planner counts sets by credit. An exercise that is recommended for a part
and counts nothing for it would send a coach looking for more sets than needed.

Instead: add the part to `set_credit:`, direct or indirect.

Fails: exercises/crate-curl.yaml 3:12
    set_credit: {lantern/short-head: direct}
    emphasis:
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        cites: [{key: wick2030, at: abstract}]

Passes: exercises/crate-curl.yaml
    set_credit: {lantern: direct}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

#: Outcomes for which a part must do work.
WORK = ("growth", "activation", "strength")


def check(context: Context) -> Iterator[Problem]:
    """Parts claimed to get more, without credit."""
    for statement, claim in context.claims:
        credit = statement.entry.data.set_credit
        if claim.more_than is None or claim.outcome not in WORK:
            continue
        for index, ref in enumerate(claim.part):
            muscle, _, part = ref.partition("/")
            if not any(
                ref == given or muscle == given or not part and given.startswith(f"{muscle}/")
                for given in credit
            ):
                yield Problem(
                    statement.spot("part", index),
                    f"`{ref}` gets no set credit from this exercise",
                    f"add `{ref}: indirect` (or direct) to `set_credit:`",
                )
