"""Fixed words around computed evidence: kinds of evidence, how much was read, steps of a rating."""

from __future__ import annotations

from ...evidence.claims.conclusions import ClaimFinding
from ...evidence.terms import EvidenceFinding

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
#: What studies found of a claim -> what that means. The words are those of ``ClaimFinding``.
FINDINGS: dict[ClaimFinding, str] = {
    "found": "As claimed: the 95% interval leaves out no difference; of likeness, all of it lies within the margin.",
    "hinted": "It leans that way, but chance, other studies or a measurement of the part alone could say otherwise.",
    "unclear": "The numbers allow a difference either way. That does not show that there is none.",
    "alike": "A difference is claimed, and any there is lies within the margin.",
    "opposite": "The other way round. Such a claim may stand only with its author\u2019s reason beside it.",
    "not studied": "No number and no test here bears on it.",
}
#: What was found of two exercises -> how a list of pairs is headed.
PAIRS: dict[EvidenceFinding, str] = {
    "found": "A difference",
    "hinted": "A lean",
    "alike": "Alike",
    "unclear": "Nothing clear",
    "not studied": "Printed side by side, never tested",
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
#: Risk of bias of a study -> how its page says it.
RISKS = {"low": "Low", "some": "Some concerns", "high": "High"}
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
