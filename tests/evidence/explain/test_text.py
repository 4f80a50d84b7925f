"""Lines of an explanation."""

from build_tools.catalog.finding import Spot
from build_tools.evidence.explain.text import (
    WIDTH,
    figure,
    interval,
    place,
    ratios,
    render,
)


def test_lines_are_wrapped_with_a_hanging_indent():
    told = render([(0, "Head"), (0, ""), (2, "word " * 40), (1, "end")]).splitlines()
    assert told[0] == "Head" and told[1] == "" and told[-1] == "  end"
    assert told[2].startswith("    word") and told[3].startswith("      word")
    assert all(len(line) <= WIDTH for line in told)


def test_numbers_have_four_digits_and_a_true_minus():
    assert figure(-0.0123456) == "\u22120.01235" and interval(-1, 2) == "\u22121 to 2"
    assert ratios(0, -0.1, 0.1) == "exp(0) = 1, from exp(\u22120.1) = 0.9048 to exp(0.1) = 1.105"


def test_places():
    assert place(Spot("a.yaml", 3, 7)) == "a.yaml:3:7"
