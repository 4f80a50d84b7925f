"""An answer from its second side's point of view."""

import pytest
from answers import CELLS, made, said, swapped, within
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.terms import LEVELS, Directions, Gains, RatioInterval
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.turning import mirrored, once


@pytest.mark.parametrize(
    ("printed", "turned"),
    [
        ("14% against 9%", "9% against 14%"),
        ("61% MVIC against 40% MVIC", "40% against 61% MVIC"),
        ("61% against 40% MVIC", "40% against 61% MVIC"),
        ("3.1 to 3.6 cm2 against 3 to 3.2 cm2", "3 to 3.2 against 3.1 to 3.6 cm2"),
        ("3.1 cm2 against 9%", "9% against 3.1 cm2"),
        ("\u22122% against 3%", "3% against \u22122%"),
        ("ratio 1.25", "ratio 0.8"),
    ],
)
def test_printed_numbers_change_places(printed, turned):
    assert mirrored(made("direction only", printed=printed)).printed == turned


@pytest.mark.parametrize(
    ("difference", "turned"),
    [
        (
            "difference 3.2\u00a0mm, 95% interval 0.4 to 6",
            "difference \u22123.2\u00a0mm, 95% interval \u22126 to \u22120.4",
        ),
        (
            "difference \u22120.6 cm2, 95% interval \u22121.4 to 0.2",
            "difference 0.6 cm2, 95% interval \u22120.2 to 1.4",
        ),
        ("difference 19%, SD 7", "difference \u221219%, SD 7"),
        ("difference 0 kg", "difference 0 kg"),
        ("Cohen d 0.4", "Cohen d \u22120.4"),
        ("standardised difference 2.6", "standardised difference \u22122.6"),
        ("ratio 2", "ratio 0.5"),
        ("effect not printed", "effect not printed"),
    ],
)
def test_a_printed_difference_changes_its_sign(difference, turned):
    assert mirrored(made("direction only", difference=difference)).difference == turned


@pytest.mark.parametrize(
    ("printed", "told"),
    [
        ("61% MVIC against 40% MVIC", "61% against 40% MVIC"),
        ("14% against 9%", "14% against 9%"),
        ("3.6\u00a0cm2 against 3.1\u00a0cm2", "3.6 against 3.1\u00a0cm2"),
        ("40% of peak against 3 mV", "40% of peak against 3 mV"),
        ("difference 3 mm", "difference 3 mm"),
    ],
)
def test_a_unit_stands_once(printed, told):
    assert once(printed) == told


@given(
    st.sampled_from(sorted(CELLS)),
    st.sampled_from(LEVELS),
    st.sampled_from(["growth", "activation", "strength"]),
    st.booleans(),
    st.builds(
        Directions,
        more=st.integers(0, 2),
        less=st.integers(0, 2),
        neither=st.integers(0, 2),
        mixed=st.integers(0, 1),
    ),
    st.sampled_from([(), (("more", "ranking"), ("neither", "none")), (("less", "within"),)]),
)
def test_a_difference_reads_the_same_from_either_side(
    row, level, outcome, parts, directions, untested
):
    """Asked the other way round, the same findings give the same sentence: it names first what came out ahead."""
    question = within(outcome) if parts else made(row).question
    answer = made(
        row,
        level,
        question
        if parts
        else type(question)(question.first, question.second, question.part, outcome),
        directions=directions,
        untested=untested,
    )
    if answer.side is None:
        return
    names = _Named()
    assert said(names, swapped(answer)) == said(names, answer)


@given(st.floats(1.001, 3), st.floats(0.7, 1), st.floats(1, 2), st.floats(0.9, 1.4))
def test_turning_twice_changes_nothing(ratio, below, above, gain):
    answer = made(
        "found",
        estimate=RatioInterval(ratio, ratio * below, ratio * above),
        gains=Gains(gain * ratio, gain),
        printed="14% against 9%",
        difference="difference 3.2 mm, 95% interval 0.4 to 6",
        directions=Directions(1, 2, 3),
        untested=(("less", "none"), ("neither", "ranking")),
    )
    again = mirrored(mirrored(answer))
    assert (again.side, again.gains, again.printed) == (answer.side, answer.gains, answer.printed)
    assert (again.difference, again.directions) == (answer.difference, answer.directions)
    assert again.untested == answer.untested
    assert again.estimate.ratio == pytest.approx(ratio)
    assert again.estimate.low == pytest.approx(ratio * below)


class _Named(Names):
    """Names without a catalog: every id reads as it stands."""

    def __init__(self) -> None:
        pass

    def exercise(self, id: str) -> str:
        return f"the {id.replace('-', ' ')}"

    def part(self, ref: str) -> str:
        return f"the {ref.partition('/')[2].replace('-', ' ')} of the lantern"
