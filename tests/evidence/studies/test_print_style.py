"""Numbers stand as the paper prints them, turned to the question."""

import pytest
from catalogs import LONG, SHORT, A, B, growth, of, result, study

from build_tools.catalog.entries import Value
from build_tools.evidence.studies import print_style as printed
from build_tools.evidence.studies.contrasts import Reports
from build_tools.evidence.wording.names import Names


@pytest.mark.parametrize(
    ("given", "unit", "text"),
    [
        ({"change_percent": 14.0}, "%", "14%"),
        ({"change_percent": -3.5, "sd": 2.0}, "cm3", "\u22123.5% (SD 2)"),
        ({"mean": 61.0, "sd": 12.0}, "% MVIC", "61% MVIC (SD 12)"),
        ({"mean": 3.6, "se": 0.25}, "cm2", "3.6\u00a0cm\u00b2 (SE 0.25)"),
        ({"mean": 50.0, "ci95": [45.0, 55.0]}, "mV", "50\u00a0mV (95% interval 45 to 55)"),
        ({"median": 50.0, "quartiles": [44.0, 56.0]}, "mV", "50\u00a0mV (quartiles 44 to 56)"),
        (
            {"pre": {"mean": 40.0, "sd": 3.0}, "post": {"mean": 44.0, "sd": 3.0}},
            "cm3",
            "40 to 44\u00a0cm\u00b3",
        ),
        ({"mean": 1234567.5}, "mm3", "1234567.5\u00a0mm\u00b3"),
        ({"change": -0.0}, "mm", "0\u00a0mm"),
    ],
)
def test_values(given, unit, text):
    assert printed.value(Value.model_validate(given), unit) == text


def reported(told, first=A, second=B, part=LONG, outcome="activation"):
    catalog = of({"one": study([told])})
    [found] = Reports(catalog).of_exercises(first, second, part, outcome)
    return catalog, found


TEST = {"of": "a", "against": "b"}
MEANS = {"a": {"mean": 61.0, "sd": 12.0}, "b": {"mean": 60.0}}


@pytest.mark.parametrize(
    ("told", "forth", "back"),
    [
        (
            result(MEANS, [TEST | {"favours": "neither", "p_above": 0.05}]),
            "A arm 61% MVIC (SD 12), b arm 60% MVIC, reported as no difference; p > 0.05 (Table 1)",
            "B arm 60% MVIC, a arm 61% MVIC (SD 12), reported as no difference; p > 0.05 (Table 1)",
        ),
        (
            result(contrasts=[TEST | {"favours": "of", "p": 0.037}], site={"said": "mid-thigh"}),
            "More for a arm than for b arm; p = 0.037; mid-thigh (Table 1)",
            "Less for b arm than for a arm; p = 0.037; mid-thigh (Table 1)",
        ),
        (
            result(contrasts=[TEST | {"favours": "neither"}]),
            "No difference reported between a arm and b arm (Table 1)",
            "No difference reported between b arm and a arm (Table 1)",
        ),
        (
            result({"a": {"mean": 61.0}}, [TEST | {"p_below": 0.001}]),
            "A arm and b arm: no direction given, a arm 61% MVIC; p < 0.001 (Table 1)",
            "B arm and a arm: no direction given, a arm 61% MVIC; p < 0.001 (Table 1)",
        ),
        (
            result(
                contrasts=[TEST | {"favours": "of", "difference": {"value": 5.0, "unit": "mm"}}]
            ),
            "More for a arm than for b arm, difference 5\u00a0mm (Table 1)",
            "Less for b arm than for a arm, difference \u22125\u00a0mm (Table 1)",
        ),
        (
            result(
                contrasts=[
                    TEST | {"favours": "neither", "difference": {"value": 0.0, "unit": "mm"}}
                ]
            ),
            "No difference reported between a arm and b arm, difference 0\u00a0mm (Table 1)",
            "No difference reported between b arm and a arm, difference 0\u00a0mm (Table 1)",
        ),
        (
            result(contrasts=[TEST | {"favours": "of", "ratio": {"value": 1.25}}]),
            "More for a arm than for b arm, ratio 1.25 (Table 1)",
            "Less for b arm than for a arm, ratio 0.8 (Table 1)",
        ),
        (
            result(contrasts=[TEST | {"favours": "of", "ratio": {"value": 3000.0}}]),
            "More for a arm than for b arm, ratio 3000 (Table 1)",
            "Less for b arm than for a arm, ratio 0.000333 (Table 1)",
        ),
        (
            result(
                contrasts=[
                    TEST | {"favours": "of", "standardised": {"kind": "not named", "value": 0.8}}
                ]
            ),
            "More for a arm than for b arm, standardised difference 0.8 (Table 1)",
            "Less for b arm than for a arm, standardised difference \u22120.8 (Table 1)",
        ),
    ],
)
def test_a_contrast_reads_both_ways_round(told, forth, back):
    for text, pair in ((forth, (A, B)), (back, (B, A))):
        catalog, found = reported(told, *pair)
        assert printed.reading(catalog, Names(catalog), found) == text


def test_two_parts_are_named_instead_of_arms():
    catalog = of(
        {
            "one": study(
                [result({"a": {"mean": 50.0}}), result({"a": {"mean": 40.0}}, parts=(SHORT,))]
            )
        }
    )
    [found] = Reports(catalog).of_parts(A, LONG, SHORT, "activation")
    assert printed.reading(catalog, Names(catalog), found) == (
        "Long head of the lantern muscle 50% MVIC, short head of the lantern muscle 40% MVIC (Table 1)"
    )


@pytest.mark.parametrize(
    ("told", "outcome", "text"),
    [
        (result(MEANS), "activation", "61% MVIC against 60% MVIC"),
        (
            growth({"a": {"change_percent": 14.0, "sd": 4.0}, "b": {"change_percent": 9.0}}),
            "growth",
            "14% against 9%",
        ),
        (
            result({"a": {"mean": 61.0}}, [TEST | {"favours": "of", "ratio": {"value": 1.2}}]),
            "activation",
            "ratio 1.2",
        ),
        (result(contrasts=[TEST | {"favours": "of"}]), "activation", None),
    ],
)
def test_figures_of_a_sentence_carry_no_spread(told, outcome, text):
    """They stand in brackets, which no second pair should open."""
    assert printed.numbers(reported(told, outcome=outcome)[1]) == text
