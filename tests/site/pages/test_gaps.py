"""Mixed, thin and missing evidence."""

from __future__ import annotations

from dataclasses import replace

from made import LOW, a_book, compared, concluded, page, row

from build_tools.site.pages.gaps import is_mixed, thinness


def test_mixed_evidence_points_both_ways() -> None:
    assert is_mixed(compared("a", "b", row(direction="more"), row(direction="less")))
    assert is_mixed(compared("a", "b", row(estimate=(1.2, 1.1, 1.3)), row(direction="less")))
    assert not is_mixed(compared("a", "b", row(estimate=(1.2, 0.9, 1.5)), row(direction="less")))
    assert not is_mixed(compared("a", "b", row(direction="more"), row(direction="neither")))
    assert not is_mixed(
        compared("a", "b", row(direction="more"), row(direction="less", stated=False))
    )


def test_thin_evidence_says_why() -> None:
    very_low = replace(LOW, level="very low")
    assert thinness(concluded(compared("a", "b", row()), certainty=very_low)) == [
        "one study",
        "no full text read",
        "very low certainty",
    ]
    assert thinness(concluded(compared("a", "b", row(read="full text"), row("glow2031")))) == []


def test_gaps_lists_the_untested_by_muscle() -> None:
    made = a_book(
        [
            concluded(
                compared("crate-curl", "cable-curl"),
                verdict="untested",
                basis="common practice",
                certainty=None,
            ),
            concluded(
                compared("crate-curl", "cable-curl"),
                index=1,
                verdict="untested",
                certainty=None,
                sentence="Cited only.",
            ),
        ]
    )
    text = page(made, "gaps.md")
    assert "<summary>Lantern muscle: 1 claim</summary>" in text
    assert (
        'href="../exercises/crate-curl/#claim-2">Crate curl</a>: Cited only.'
        in text.partition("## Cited without numbers")[2]
    )
