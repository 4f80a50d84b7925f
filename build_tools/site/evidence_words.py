"""How conclusions are worded around their composed sentences: the kind of evidence, and how a report bears on a claim."""

from __future__ import annotations

from ..evidence.conclude import Bearing, Conclusion
from ..evidence.reported import Reported
from ..evidence.sentences import numbers, p_value

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
BEARINGS: dict[Bearing, str] = {
    "agrees": "Points the same way.",
    "no difference": "No clear difference.",
    "disagrees": "Points the other way.",
    "no direction": "Gives no direction.",
}
_READ = {"full text": "full text read", "abstract": "only the abstract read", "part of abstract": "only part of the abstract read",
         "record": "only the record read", "memory": "not read again, from memory"}


def is_tested(conclusion: Conclusion) -> bool:
    """Whether any number of the catalog bears on the claim."""
    return conclusion.agreement not in ("common practice", "no numbers")


def order(conclusion: Conclusion) -> tuple[bool, int]:
    """Tested before untested, otherwise as written."""
    return not is_tested(conclusion), conclusion.index


def read_of(read: str) -> str:
    """How much of a source was read, as a short note."""
    return _READ.get(read, "reading not stated")


def reported_figures(reported: Reported) -> str:
    """``14 % against 9 %; p < 0.01``; empty when only a direction is known."""
    return "; ".join(words for words in (numbers(reported), p_value(reported)) if words)
