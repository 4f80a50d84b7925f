"""Facts of anatomy in the shipped tables, read from the CSV alone.

The facts are textbook anatomy: a muscle's length changes only with the joints it
crosses, and in the direction it crosses them. The amounts were measured on these
models and two others before the tables were made (see catalog/model/README.md).
"""

from __future__ import annotations

import pytest
from shipped_lengths import column

KNEE, HIP = range(0, 121, 10), range(-20, 121, 10)
ELBOW, SHOULDER = range(0, 131, 10), range(-40, 181, 10)
ANKLE = range(-40, 31, 10)


@pytest.mark.parametrize("name", ["bifemlh", "semiten", "semimem"])
def test_two_joint_hamstrings_are_longer_seated_than_prone_at_every_knee_angle(name: str) -> None:
    at = column("hip-knee", name)
    assert all(75 < at[90, knee] - at[0, knee] < 100 for knee in KNEE)


def test_the_short_head_of_biceps_femoris_does_not_change_with_the_hip() -> None:
    at = column("hip-knee", "bifemsh")
    assert all(at[hip, knee] == at[0, knee] for hip in HIP for knee in KNEE)


@pytest.mark.parametrize("name", ["bifemlh", "bifemsh", "semiten", "semimem"])
def test_hamstrings_shorten_as_the_knee_bends(name: str) -> None:
    at = column("hip-knee", name)
    assert all(at[hip, knee + 10] < at[hip, knee] for hip in HIP for knee in range(0, 110, 10))


@pytest.mark.parametrize("name", ["vas_lat", "vas_int", "vas_med"])
def test_vasti_lengthen_as_the_knee_bends_and_do_not_know_the_hip(name: str) -> None:
    at = column("hip-knee", name)
    assert all(at[0, knee + 10] > at[0, knee] for knee in range(0, 120, 10))
    assert all(at[hip, knee] == at[0, knee] for hip in HIP for knee in KNEE)


@pytest.mark.parametrize("name", ["med_gas", "lat_gas"])
def test_gastrocnemius_is_longer_with_a_straight_knee(name: str) -> None:
    at = column("knee-ankle", name)
    assert all(25 < at[0, ankle] - at[90, ankle] < 35 for ankle in ANKLE)


def test_soleus_does_not_change_with_the_knee() -> None:
    at = column("knee-ankle", "soleus")
    assert all(at[knee, ankle] == at[0, ankle] for knee in KNEE for ankle in ANKLE)


@pytest.mark.parametrize("name", ["med_gas", "lat_gas", "soleus"])
def test_calf_muscles_lengthen_as_the_toes_come_up(name: str) -> None:
    at = column("knee-ankle", name)
    assert all(
        at[knee, ankle + 10] > at[knee, ankle] for knee in KNEE for ankle in range(-40, 30, 10)
    )


def test_the_long_head_of_triceps_is_longer_with_the_arm_raised() -> None:
    at = column("shoulder-elbow", "TRIlong")
    assert all(
        at[140, elbow] - at[0, elbow] > 45 and at[180, elbow] > at[0, elbow] for elbow in ELBOW
    )


@pytest.mark.parametrize("name", ["TRIlat", "TRImed", "BRA"])
def test_one_joint_muscles_of_the_elbow_do_not_change_with_the_shoulder(name: str) -> None:
    at = column("shoulder-elbow", name)
    assert all(at[shoulder, elbow] == at[0, elbow] for shoulder in SHOULDER for elbow in ELBOW)


def test_the_long_head_of_biceps_is_longer_with_the_arm_behind_the_body() -> None:
    at = column("shoulder-elbow", "BIClong")
    assert all(10 < at[-40, elbow] - at[0, elbow] < 20 for elbow in ELBOW)
