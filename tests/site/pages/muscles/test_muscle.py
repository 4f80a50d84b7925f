"""The page of a muscle: an answer for each part, and what was measured on it as a whole."""

from __future__ import annotations

from made import LONG, SHORT, a_book, compared, page, row

from build_tools.evidence.claims.conclusions import PartEvidence
from build_tools.evidence.model.slope import LengthSlope

SLOPE = LengthSlope(
    mean=0.09,
    low=0.01,
    high=0.17,
    more=0.99,
    studies=("wick2030", "glow2031"),
    people=30,
    prior=(0.05, 0.05),
    differences=(0.1, 0.4),
)


def test_length_is_told_as_a_rule_of_thumb_for_the_muscle() -> None:
    """By hand: exp(0.09 / 5) = 1.0182, exp(0.01 / 5) = 1.0020, exp(0.17 / 5) = 1.0346; exp(0.05 / 5) = 1.0101."""
    text = page(a_book(slopes={"lantern": SLOPE}), "muscles/lantern.md")
    whole = text.partition("{#muscle-as-a-whole}")[2].partition("\n## ")[0]
    assert (
        "Longer by a fifth of its range: about 1.8% more growth (could be 0.2% to 3.5%), "
        "from 2 studies of 30 people. A rule of thumb for the muscle, not a finding on any pair."
    ) in whole
    assert "before these studies: 1% more for a fifth of the range (1% less to 3% more)." in whole
    assert "Longer by a fifth" not in page(a_book(), "muscles/lantern.md")


def test_every_part_has_an_answer_and_a_page() -> None:
    """Old links name the part by its anchor, and land on its answer."""
    text = page(a_book(), "muscles/lantern.md")
    for part in (LONG, SHORT):
        answer = text.partition(f"{{#{part.partition('/')[2]}}}")[2].partition("\n### ")[0]
        assert '<dl class="hb-answer">' in answer
        assert f'href="{part.partition("/")[2]}/"' in answer


def test_the_whole_muscle_is_told_apart_from_its_parts() -> None:
    whole = compared("crate-curl", "cable-curl", row(), part="lantern", finding="unclear")
    made = a_book(fields=[PartEvidence("lantern", "growth", None, (), (whole,))])
    told = page(made, "muscles/lantern.md").partition("{#muscle-as-a-whole}")[2]
    assert 'id="growth-cable-curl-crate-curl"' in told
    part = page(made, "muscles/lantern/long-head.md")
    assert 'id="growth-cable-curl-crate-curl"' not in part
    assert 'href="../#muscle-as-a-whole">the whole lantern muscle</a>: 1 pair.' in part
