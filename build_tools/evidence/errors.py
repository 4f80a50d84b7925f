"""The one error of the numbers: they cannot be had, or cannot be what they claim to be."""

from __future__ import annotations


class EvidenceError(ValueError):
    """Numbers that cannot be worked with; the message says in plain words why.

    The functions that raise it know numbers only. Whoever calls them with a
    study's numbers adds the study and the line.
    """
