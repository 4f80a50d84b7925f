"""Fixed words around computed evidence: kinds of evidence, how much was read, steps of a rating."""

from __future__ import annotations

#: Outcome -> what was looked at, in a reader's words. Growth and activation must never read alike.
OUTCOMES = {
    "growth": "Growth after weeks of training",
    "strength": "Strength after weeks of training",
    "activation": "Activation in one session",
    "architecture": "Muscle architecture after weeks of training",
    "length": "Muscle length, from joint angles",
}
#: Outcome -> what it cannot show.
LIMITS = {
    "activation": "How strongly the muscle was driven. It does not show growth.",
    "length": "Follows from the posture. It does not show growth.",
}
#: Outcome -> what the ratio of two exercises compares.
MEASURED = {
    "growth": "muscle size at the end of training",
    "strength": "strength at the end of training",
    "activation": "activity in one session",
    "architecture": "muscle architecture at the end of training",
    "length": "muscle length",
}
#: What stands behind a direction -> how a source's page says it.
TESTS = {
    "between": "the two were tested against each other",
    "interaction": "tested as arm by time",
    "within": "each was tested against its own start only, not against the other",
    "omnibus": "one test over all arms; no test of this pair was read",
    "ranking": "a ranking; no test of this pair was read",
    "none": "no test of it was read",
    "not reported": "the paper is silent on this pair",
}
#: Notice on a reference -> how its page says it.
NOTICES = {"correction": "Corrected", "concern": "Expression of concern", "retraction": "Retracted"}
#: Kind of correlation -> its heading.
CORRELATIONS = {
    "before_after": "Before and after training",
    "arms": "Two exercises done by the same people",
    "parts": "Two parts of a muscle in one exercise",
    "sites": "The same contrast at two sites or by two measures",
}
_READ = {
    "full text": "full text read",
    "abstract": "only the abstract read",
    "part of abstract": "only part of the abstract read",
    "record": "only the record read",
    "memory": "not read again, from memory",
}
_LEVELS = {1: "one level", 2: "two levels", 3: "three levels"}


def read_of(read: str) -> str:
    """How much of a source was read, as a short note."""
    return _READ.get(read, "reading not stated")


def levels(change: int) -> str:
    """A step of a rating: ``one level down``; empty when nothing changes."""
    return (
        f"{_LEVELS.get(abs(change), f'{abs(change)} levels')} {'down' if change < 0 else 'up'}"
        if change
        else ""
    )
