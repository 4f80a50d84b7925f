"""What each level of certainty means, against GRADE's own definitions (``grade_meaning``)."""

from statistics_reference import entry

from build_tools.evidence.certainty.words import MEANING
from build_tools.evidence.terms import LEVELS

COVERS = {"grade_meaning"}


def test_each_level_has_its_meaning():
    """grade_meaning: close, probably close, may be and likely different."""
    assert set(MEANING) == set(LEVELS)
    published = dict(
        part.split(": ")
        for part in entry("grade_meaning")["expected"]["rule"].rstrip(".").split(". ")
    )
    for level, key in (
        ("high", "very confident"),
        ("moderate", "probably close"),
        ("low", "may be"),
        ("very low", "likely"),
    ):
        assert key in published[level.capitalize()] and key in MEANING[level]
