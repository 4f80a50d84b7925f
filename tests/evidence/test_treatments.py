"""Exercises and versions of them."""

import pytest

from build_tools.evidence.treatments import exercise_of, is_version, version_of


@pytest.mark.parametrize(
    ("treatment", "exercise", "version"),
    [
        ("preacher-curl", "preacher-curl", None),
        ("preacher-curl@lower-half", "preacher-curl", "lower-half"),
    ],
)
def test_a_treatment_is_an_exercise_or_a_version_of_one(treatment, exercise, version):
    assert (exercise_of(treatment), version_of(treatment)) == (exercise, version)
    assert is_version(treatment) == (version is not None)
