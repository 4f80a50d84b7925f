"""What is said of numbers as papers print them.

Forms from the examples of APA Style (7th ed., sections 6.43 to 6.45: M = 33.3, SD = 5.1; 95% CI [0.02, 0.13]; p < .001;
p = .03) and from the ISO 80000-1 way to group thousands and to set the decimal comma.
"""

import pytest

from build_tools.catalog.misread import as_id, cut_by_a_comma, interval, number_help, odd_character


@pytest.mark.parametrize(
    "text, key, help",
    [
        ("33.3 (5.1)", "mean", "mean: 33.3, sd: 5.1 "),
        ("33,3 ± 5,1", "change", "change: 33.3, sd: 5.1 "),
        ("14 ± 3%", "change_percent", "change_percent: 14, sd: 3 "),
        ("< .001", "p", "`p_below: 0.001`"),
        ("p = .03", "p", "p: 0.03"),
        (">0.05", "p", "`p_above: 0.05`"),
        ("n.s.", "p", "leave `p:` out"),
        ("1,234.5", "mean", "1234.5"),
        ("1,234,567", "mean", "1234567"),
        ("1,234", "mean", "1.234 or 1234"),
        ("−0,5", "mean", "-0.5"),
        ("12 kg", "mean", "mean: 12"),
        ("~63", "n", "n: 63"),
        ("8-10", "weeks", "a range"),
    ],
)
def test_a_number_among_other_things(text, key, help):
    assert help in number_help(text, key)


@pytest.mark.parametrize("text, key", [("5%", "p"), ("twelve", "n"), ("3 of 4", "n"), ("", "n")])
def test_nothing_is_guessed(text, key):
    assert number_help(text, key) == "write plain digits, without quotes, unit or leading zero"


@pytest.mark.parametrize("text", ["0.02 to 0.13", "[0.02, 0.13]", "0.02–0.13", "(.02; .13)"])
def test_an_interval_in_words(text):
    assert interval(text) == "[0.02, 0.13]"


def test_an_interval_that_is_none():
    assert interval("0.02") is None and interval("a to b") is None
    assert interval("-3 to -1") == "[-3, -1]"


def test_a_comma_cuts_a_number_in_two():
    assert cut_by_a_comma("press: {mean: 33,", "3") == "33.3"
    assert cut_by_a_comma("press: {mean: 33,", "sd") is None
    assert cut_by_a_comma("press: {mean: x, ", "3") is None


def test_a_name_becomes_the_id_it_was_meant_to_be():
    assert as_id("Seated leg curl", "-") == "seated-leg-curl"
    assert as_id("Hamstrings/Biceps femoris", "-") == "hamstrings/biceps-femoris"
    assert as_id("Smith-2024", "") == "smith2024"
    assert as_id("<script>", "-") is None and as_id("45°", "-") is None


def test_an_unseen_character_is_named():
    assert odd_character("seated\u200b-row") == "U+200B"
    assert odd_character("seated-row") is None
