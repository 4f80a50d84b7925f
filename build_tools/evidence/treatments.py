"""What is compared: an exercise as such (its id), or a version of it (``preacher-curl@lower-half``)."""

from __future__ import annotations


def exercise_of(treatment: str) -> str:
    """The exercise of a treatment."""
    return treatment.partition("@")[0]


def version_of(treatment: str) -> str | None:
    """The version's id, ``None`` for the exercise as such."""
    return treatment.partition("@")[2] or None


def is_version(treatment: str) -> bool:
    """Whether it is a version, which says nothing of the exercise as such."""
    return "@" in treatment


def pair_anchor(outcome: str, first: str, second: str) -> str:
    """The anchor of a pair on the page of its part: ``growth-leg-extension--lower-half-leg-press``, whichever side is named first."""
    return "-".join([outcome, *sorted((first, second))]).replace("@", "--")
