"""The reason for a claim speaks of the outcome that is claimed.

Why: growth and activation are different things. "It works harder, so it grows more"
lets a signal of one session pass for a finding on growth.

Instead: give the reason for this outcome alone. What was not shown may be said: "this
does not show growth".

Fails: exercises/crate-curl.yaml 5:14 10:14
    emphasis:
      - part: [lantern/long-head]
        outcome: activation
        more_than: {part: lantern/short-head}
        because: The bent hip makes it grow more.
        common_practice: Commonly taught in Lantern Yard.
      - part: [lantern/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The EMG is higher there.
        cites: [{key: wick2030, at: abstract}]

Passes: exercises/crate-curl.yaml
    emphasis:
      - part: [lantern/long-head]
        outcome: activation
        more_than: {part: lantern/short-head}
        because: Teachers feel it there; this does not show growth.
        common_practice: Commonly taught in Lantern Yard.
"""

import re
from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

_GROWTH = re.compile(
    r"\b(gr[eo]wn?|grows|growing|growth|hypertroph\w*|bigger|thicker|muscle size)\b", re.IGNORECASE
)
_ACTIVATION = re.compile(
    r"\b(emg|activation|activated|activates|electrical activity|amplitude)\b", re.IGNORECASE
)
#: Outcome -> the other outcome, and words that speak of it.
OTHERS = {
    "activation": ("growth", _GROWTH),
    "length": ("growth", _GROWTH),
    "growth": ("activation", _ACTIVATION),
}
_DENIED = re.compile(r"\b(not?|never|nothing|nobody|without|neither|nor)\b", re.IGNORECASE)


def check(context: Context) -> Iterator[Problem]:
    """Reasons that speak of another outcome without denying it."""
    for statement, claim in context.claims:
        other, words = OTHERS.get(claim.outcome, ("", None))
        for clause in re.split(r"[.;:]", claim.because) if words else ():
            found = words.search(clause) if words else None
            if found and not _DENIED.search(clause):
                yield Problem(
                    statement.spot("because"),
                    f"`{found.group()}` speaks of {other}, and the claim of {claim.outcome}",
                    f"give the reason for {claim.outcome} alone, or claim {other}",
                )
                break
