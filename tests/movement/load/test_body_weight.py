"""Loads of body-weight movements against printed and derived shares."""

from datetime import date
from math import sqrt
from pathlib import Path

import pytest
import shipped_made
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.load import load
from build_tools.catalog.walk import statements
from build_tools.checks.rule import Context
from build_tools.checks.rules import statement_basis
from build_tools.movement.load.body_weight import told, total_load
from build_tools.movement.load.statics import between, reactions, weight
from build_tools.movement.posture.balance import PAIRED
from build_tools.movement.posture.body import CENTRE_MEN, MASS_MEN, REFERENCE


def moved_share(resting):
    """Share of body mass that moves while the named segments of both sides stay where they are."""
    return 1 - sum(MASS_MEN[segment] * (2 if segment in PAIRED else 1) for segment in resting)


def share_on(point, other, weights):
    """Share of the weights that one of two supports carries while all is held still."""
    carried, _ = reactions(point, other, weights)
    return carried.y / -sum(w.y for w in weights)


@pytest.mark.parametrize(
    ("resting", "share"),
    [
        # Arithmetic on de Leva 1996 table 4, made independently in the evidence sheet of this project: 1 - 2 × (shank + foot), ...
        (("shank", "foot"), 0.886),
        (("forearm", "hand"), 0.955),
    ],
)
def test_shares_reckoned_from_segment_masses(resting, share):
    assert moved_share(resting) == pytest.approx(share, abs=6e-4)


def test_a_whole_body_adds_up_to_one():
    """Printed fractions have four decimals, so the sum may miss 1 by a few ten-thousandths."""
    assert moved_share(MASS_MEN) == pytest.approx(0, abs=5e-4)


def push_up(pivot, turning):
    """Straight body from a pivot on the floor to the shoulders, arms upright beneath them; what lies behind the pivot rests."""
    body = REFERENCE
    lengths = {
        s: body.length(s)
        for s in ("shank", "thigh", "trunk", "head", "upper_arm", "forearm", "hand")
    }
    reach, height = (
        sum(lengths[s] for s in turning if s != "head"),
        sum(lengths[s] for s in ("upper_arm", "forearm", "hand")),
    )
    shoulder = (sqrt(reach**2 - height**2), height)
    weights, along = [], 0.0
    for segment in turning:
        # Thigh and shank are listed from their upper joint in the table, and stand upside down here.
        centre = 1 - CENTRE_MEN[segment] if segment in ("shank", "thigh") else CENTRE_MEN[segment]
        at = between((0, 0), shoulder, (along + centre * lengths[segment]) / reach)
        weights.append(weight(body.mass_of(segment) * (2 if segment in PAIRED else 1), at))
        along += lengths[segment]
    arms = 2 * sum(body.mass_of(s) for s in ("upper_arm", "forearm", "hand"))
    weights.append(weight(arms, (shoulder[0], height / 2)))
    resting = [s for s in ("foot", "shank") if s not in turning]
    weights.append(weight(2 * sum(body.mass_of(s) for s in resting), (0, 0)))
    return share_on((shoulder[0], 0), (0, 0), weights)


def test_a_push_up_from_the_toes():
    """Mier et al., Int J Exerc Sci 2014;7(2):161-168, abstract: held still with straight arms, men carry 67.0 (SD 3.8) % of their weight on
    the hands, women 65.1 (3.1) %. The straight-line model here stands on its ankles, some 15 cm nearer than the toes: within two SD."""
    assert push_up("ankle", ("shank", "thigh", "trunk", "head")) == pytest.approx(0.67, abs=0.076)


def test_a_push_up_from_the_knees():
    """The same abstract: 52.5 (3.7) % for men, 51.5 (3.1) % for women. The model leaves the shanks on the floor."""
    assert push_up("knee", ("thigh", "trunk", "head")) == pytest.approx(0.525, abs=0.074)


@pytest.mark.parametrize(
    ("mass", "share", "added", "total"),
    [(80, 0.886, 0, 70.88), (80, 0.955, 20, 96.4), (80, 0.955, -30, 46.4)],
)
def test_total_load(mass, share, added, total):
    """Own arithmetic: body mass × share + added."""
    assert total_load(mass, share, added) == pytest.approx(total)


@pytest.mark.parametrize(
    ("mass", "share", "added", "message"),
    [
        (0, 0.9, 0, "body mass must be above 0 kg"),
        (80, 0, 0, "the share of body mass must lie above 0"),
        (80, 1.1, 0, "and at most at 1, not 1.1"),
        (80, 0.5, -50, "help of 50 kg is more than the 40 kg"),
    ],
)
def test_impossible_loads_are_refused(mass, share, added, message):
    with pytest.raises(ValueError, match=message):
        total_load(mass, share, added)


@given(st.floats(-2, 2), st.floats(0.1, 2))
def test_one_weight_between_two_supports_is_shared_by_its_distance(at, apart):
    """The lever rule: the share grows along the line from 0 at the other support to 1 at this one."""
    assert share_on((apart, 0), (0, 0), [weight(10, (at, 0.4))]) == pytest.approx(at / apart)


def demo_with(demo, fraction):
    """The invented demo catalog, with a fraction on one exercise."""
    file = demo / "exercises" / "crate-curl.yaml"
    file.write_text(
        file.read_text(encoding="utf-8") + f"body_weight_fraction: {fraction}\n", encoding="utf-8"
    )
    return load(demo)


def test_an_exercise_states_its_fraction_with_a_source_and_a_place(demo):
    catalog = demo_with(demo, "{value: 0.6, how: measured, cites: [{key: wick2030, at: Table 1}]}")
    assert catalog.findings == []
    fraction = catalog.exercises["crate-curl"].data.body_weight_fraction
    assert total_load(80, fraction.value, 5) == pytest.approx(53)
    assert "body-weight fraction" in {s.called for s in statements(catalog)}


def test_a_fraction_without_a_source_is_found(demo):
    catalog = demo_with(demo, "{value: 0.6, how: measured}")
    found = [
        f
        for f in statement_basis.check(Context(catalog, date(2026, 11, 1)))
        if "body-weight fraction" in f.message
    ]
    assert len(found) == 1


@pytest.mark.parametrize(
    "fraction",
    [
        "{value: 0, how: measured}",
        "{value: 60, how: measured}",
        "{value: 0.6}",
        "{value: 0.6, how: guessed}",
    ],
)
def test_a_fraction_that_makes_no_sense_is_refused(demo, fraction):
    assert [Path(f.spot.file).name for f in demo_with(demo, fraction).findings] == [
        "crate-curl.yaml"
    ]


def test_shipped_shares_follow_from_the_table():
    """Shares reckoned for shipped exercises are the table's own arithmetic (de Leva 1996): the body without resting shanks and feet."""
    catalog = shipped_made.catalog()
    shares = {
        id: e.data.body_weight_fraction
        for id, e in catalog.exercises.items()
        if e.data.body_weight_fraction
    }
    assert set(shares) >= {"nordic-curl", "glute-ham-raise"}
    for id in ("nordic-curl", "glute-ham-raise"):
        assert shares[id].how == "reckoned"
        assert shares[id].value == pytest.approx(moved_share(("shank", "foot")), abs=0.0005)


def test_the_load_is_told_with_a_worked_number():
    assert told(0.886, "reckoned", 80) == (
        "Total load: 0.89 × body mass, plus what is added. A person of 80 kg moves about 71 kg. "
        "The share is reckoned from segment masses, not measured."
    )
