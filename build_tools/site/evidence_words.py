"""How conclusions are worded around their composed sentences: the kind of evidence, and how reports stand to a claim."""

from __future__ import annotations

from ..evidence.conclude import Agreement, Bearing, Conclusion
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
    "activation": "Activation is how strongly a muscle was driven in one session. It does not show growth.",
    "length": "Muscle length follows from the posture. It does not show growth.",
}
STANDING: dict[Agreement, str] = {
    "agrees": "reported",
    "mixed": "reports differ",
    "no difference": "no clear difference reported",
    "disagrees": "reported the other way round",
    "no numbers": "no numbers here",
    "common practice": "untested here",
}
BEARINGS: dict[Bearing, str] = {
    "agrees": "Points the same way.",
    "no difference": "No clear difference.",
    "disagrees": "Points the other way.",
    "no direction": "Gives no direction.",
}
_READ = {"full text": "full text read", "abstract": "only the abstract read", "part of abstract": "only part of the abstract read",
         "record": "only the record read", "memory": "not read again, from memory"}


def mark(conclusion: Conclusion) -> str:
    """The class of the mark beside a claim, whose shape (not only colour) tells the kind of evidence."""
    return "taught" if conclusion.agreement in ("common practice", "no numbers") else conclusion.outcome


def order(conclusion: Conclusion) -> tuple[bool, int, int]:
    """Tested before untested, growth before activation, then as written."""
    return mark(conclusion) == "taught", list(OUTCOMES).index(conclusion.outcome), conclusion.index


def read_of(read: str) -> str:
    """How much of a source was read, as a short note."""
    return _READ.get(read, "reading not stated")


def reported_figures(reported: Reported) -> str:
    """``14 % against 9 %; p < 0.01``; empty when only a direction is known."""
    return "; ".join(words for words in (numbers(reported), p_value(reported)) if words)
