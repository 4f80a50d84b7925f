"""What pages say of conclusions that the demo catalog does not have: disputes, several lists, several samples, kinds that differ."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from typing import get_args

import pytest
from folders import ROOT
from made import LONG, LOW, SHORT, a_book, compared, concluded, file, page, row, two_lists

from build_tools.evidence.certainty.words import MEANING
from build_tools.evidence.claims.conclusions import Disagreement, Question, Row
from build_tools.evidence.claims.verdict import RatioInterval, Verdict
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.sentences import Behind, answer
from build_tools.site.book import Book
from build_tools.site.pages import methods
from build_tools.site.pages.gaps import is_mixed, thinness

POOLED = compared(
    "crate-curl",
    "cable-curl",
    row(estimate=(1.06, 1.01, 1.11)),
    row("glow2031", (1.02, 0.98, 1.06), people=12),
    row("wick2030", direction="less"),
    estimate=(1.035, 1.005, 1.066),
    prediction=(0.97, 1.1),
    i2=34.0,
)


def methods_page(made: Book) -> str:
    return made.fill("methods.md", (ROOT / "content" / "methods.md").read_text(encoding="utf-8"))


def test_a_claim_shows_its_verdict_and_certainty_in_words() -> None:
    made = a_book([concluded(POOLED)])
    text = page(made, "exercises/crate-curl.md")
    assert "Composed on the claim." in text
    assert re.search(r"Verdict</a>: shown\. .*Certainty</a>: low\.", text)
    below = text.partition("Numbers and reasons")[2]
    for words in (
        f"Growth of {made.shelf.names.part(LONG)} is greater with the crate curl",
        "The interval lies there.",
        "Curl 14%, other 9%",
        "Taken back from t.",
        "No spread reported.",
        "<b>One level down.</b> Few people.",
        "<b>Two levels down.</b> The samples differ.",
        "<b>At most moderate.</b> Read in the abstract only.",
        "A new study of the same question would be expected",
    ):
        assert words in below


def test_a_contradicted_claim_shows_the_sentence_and_the_authors_reason() -> None:
    made = a_book([concluded(POOLED, verdict="contradicted")], disputed="Their crate was too low")
    text = page(made, "exercises/crate-curl.md")
    visible = text.partition('<details class="hb-below">')[0]
    assert "Composed on the claim." in visible and "Verdict</a>: contradicted." in visible
    assert "<b>The author disputes this:</b> Their crate was too low." in visible
    assert (
        "Their crate was too low."
        in page(made, "gaps.md").partition("## Disagreements")[2].partition("## Thin")[0]
    )


def test_kinds_that_differ_are_told_on_the_page_and_among_the_gaps() -> None:
    sentence = "Growth and activity point different ways."
    made = a_book(
        [concluded(POOLED)],
        disagreements=[
            Disagreement(Question("crate-curl", "cable-curl", LONG, "growth"), sentence)
        ],
    )
    for id in ("crate-curl", "cable-curl"):
        text = page(made, f"exercises/{id}.md")
        assert sentence in text and text.rpartition(sentence)[0].count(
            "<details"
        ) == text.rpartition(sentence)[0].count("</details")
    assert sentence not in page(made, "exercises/lamp-raise.md")
    assert sentence in page(made, "gaps.md")


def test_exercises_that_no_study_connects_stand_in_separate_lists() -> None:
    text = page(a_book(fields=[two_lists()]), "muscles/lantern.md")
    assert text.count('<ol class="hb-standing">') == 2
    assert "No study connects these lists" in text
    first, second = re.findall(r'<ol class="hb-standing">(.*?)</ol>', text, re.DOTALL)
    assert "Crate curl" in first and "Lamp raise" in second and "Lamp raise" not in first
    # the interval 0.97 to 1.14 holds 1, the interval 1.1 to 1.5 does not
    assert (
        "No clear difference from the next." in first
        and "No clear difference from the next." not in second
    )
    assert "5% more (from 3% less to 14% more), certainty low." in first
    assert (
        "Direct and indirect comparisons do not disagree more than chance allows (p = 0.4)." in text
    )


def test_one_list_is_not_said_to_be_apart() -> None:
    known = two_lists()
    text = page(
        a_book(fields=[replace(known, components=known.components[:1])]), "muscles/lantern.md"
    )
    assert "No study connects" not in text


def test_directions_alone_are_listed_and_never_ranked() -> None:
    text = page(a_book(fields=[two_lists()]), "muscles/lantern.md")
    listed = text.partition("only directions are known. They stand in no order.")[2]
    assert "Composed on crate-curl and lamp-raise." in listed
    assert (
        "Composed on crate-curl and lamp-raise." not in text.partition("They stand in no order.")[0]
    )
    assert all(
        "Composed on crate-curl and lamp-raise." not in ordered
        for ordered in re.findall(r"<ol.*?</ol>", text, re.DOTALL)
    )


def test_outcomes_never_share_a_list() -> None:
    growth = two_lists()
    activation = replace(
        growth,
        outcome="activation",
        components=growth.components[:1],
        comparisons=tuple(
            replace(c, question=replace(c.question, outcome="activation"))
            for c in growth.comparisons[:1]
        ),
    )
    text = page(a_book(fields=[growth, activation]), "muscles/lantern.md")
    sections = [
        s.partition("</section>")[0]
        for s in re.split('<section class="hb-outcome"[^>]*>', text)[1:]
    ]
    with_lists = [s for s in sections if "hb-standing" in s]
    assert [("Growth after weeks" in s, "Activation in one session" in s) for s in with_lists] == [
        (True, False),
        (False, True),
    ]
    assert (
        next(s for s in sections if "Activation in one session" in s).count("<details") > 0
    )  # one step below


def test_a_study_page_says_what_was_made_of_its_numbers() -> None:
    either_way = compared(
        "cable-curl", "crate-curl", row(estimate=(0.95, 0.9, 1.0)), estimate=(0.95, 0.9, 1.0)
    )
    made = a_book([concluded(POOLED)], fields=[replace(two_lists(), comparisons=(either_way,))])
    text = page(made, "sources/wick2030.md")
    result = text.partition('id="result-1"')[2].partition("</tbody>")[0]
    assert (
        "What the handbook made of it (1)" in result
    )  # the same question the other way round is not told again
    assert (
        f"Standing cable curl against crate curl, {made.shelf.names.part(LONG).removeprefix('the ')}"
        in result
    )
    assert "5% less (from 10% less to no difference)" in result and "Taken back from t." in result
    assert "It enters no comparison of this handbook." in text.partition('id="result-2"')[2]


def test_the_file_of_a_plot_names_title_sources_and_licence() -> None:
    made = a_book([concluded(POOLED)], fields=[two_lists()])
    root = ET.fromstring(file(made, "figures/exercises/crate-curl/claim-1-1.svg"))
    words = " ".join(" ".join(t.itertext()) for t in root.iter("{http://www.w3.org/2000/svg}text"))
    for part in (
        "Lantern Yard handbook",
        "CC0-1.0",
        "Wick et al. 2030, https://doi.org/10.0000/invented.1",
        "Glow 2031",
        "All together",
    ):
        assert part in words
    assert {f.uri for f in made.files if f.uri.startswith("figures/muscles/")} == {
        "figures/muscles/lantern/long-head/growth-1.svg",
        "figures/muscles/lantern/long-head/growth-2.svg",
    }


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (row(estimate=(1.05, 1.01, 1.09)), "5% more (from 1% more to 9% more)"),
        (row(direction="less"), "less, by how much is not known"),
        (row(direction="neither"), "no difference reported"),
        (row(stated=True), "different answers in different measurements"),
        (
            row(direction="more", stated=False),
            "unequal, but no test of the two was read, so not counted",
        ),
        (row(), "no direction given"),
    ],
)
def test_a_sample_in_words_on_the_page_and_in_the_drawing(given: Row, words: str) -> None:
    made = a_book(
        [concluded(compared("crate-curl", "cable-curl", given, row("glow2031", (1.5, 1.2, 1.8))))]
    )
    text = page(made, "exercises/crate-curl.md")
    assert f"<b>{words}</b>" in text
    drawn = file(made, "figures/exercises/crate-curl/claim-1-1.svg")
    assert (words in drawn) == (
        given.stated or given.estimate is not None
    )  # what nobody stated is not drawn


def test_directions_alone_have_no_plot() -> None:
    made = a_book([concluded(compared("crate-curl", "cable-curl", row(direction="more")))])
    assert not any(f.uri.startswith("figures/") and "claim-" in f.uri for f in made.files)
    assert "hb-plot" not in page(made, "exercises/crate-curl.md").partition("{#how-to-do-it}")[0]


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


def test_the_worked_example_is_chosen_by_rule() -> None:
    alone = compared(
        "crate-curl", "cable-curl", row(estimate=(1.5, 1.2, 1.9)), estimate=(1.5, 1.2, 1.9)
    )
    made = a_book([concluded(alone), concluded(POOLED, index=1)])
    found = methods.chosen(made.shelf)
    assert found and found[0].index == 1  # several samples before one
    text = methods_page(made)
    assert "3.5% more (from 0.5% more to 6.6% more)" in text and "2 more samples bear on it" in text
    without = methods_page(
        a_book([concluded(compared("crate-curl", "cable-curl", row(direction="more")))])
    )
    assert "No claim of this handbook rests on a pooled number yet" in without


def test_methods_says_what_an_assumed_correlation_changes() -> None:
    sensitive = replace(
        POOLED, sensitive="It rests on an assumed correlation: there would be likeness with 0.9."
    )
    assert "there would be likeness with 0.9." in methods_page(a_book([concluded(sensitive)]))
    assert "Over these ranges no claim of this handbook gets another answer." in methods_page(
        a_book([concluded(POOLED)])
    )


def test_methods_explains_every_convention_and_every_word(demo_book: Book) -> None:
    text = methods_page(demo_book)
    for _, convention in demo_book.shelf.handbook.conventions.items():
        assert convention.means in text and (convention.common_practice or "") in text
    for word in (
        "Shown",
        "Leaning",
        "Not shown",
        "Contradicted",
        "Untested",
        "High",
        "Moderate",
        "Low",
        "Very low",
    ):
        assert f"<dt>{word}</dt>" in text


@pytest.mark.parametrize("level", MEANING)
def test_methods_quotes_the_words_that_sentences_use(level: str, demo_book: Book) -> None:
    question = Question("crate-curl", "cable-curl", LONG, "growth")
    said = answer(
        Names(demo_book.shelf.catalog),
        question,
        (LONG,),
        "more",
        level,  # type: ignore[arg-type]
        Behind("1 study of 18 people"),
        RatioInterval(1.1, 1.05, 1.2),
    )
    assert f"{methods.WORDING[level]} " in said[0].lower() + said[1:]


def test_methods_knows_every_verdict() -> None:
    """Against what the judge itself can say."""
    assert set(methods.VERDICTS) == set(get_args(Verdict))


def test_dois_lead_to_the_handbooks_own_page_where_there_is_one(demo_book: Book) -> None:
    desk = demo_book.shelf.at("methods.md")
    pieces = methods.linked(
        desk, "Ours (doi:10.0000/invented.1), theirs (doi:10.1186/1471-2288-8-79, Table 3)."
    )
    assert [piece.href for piece in pieces if piece.href] == [
        "../sources/wick2030/",
        "https://doi.org/10.1186/1471-2288-8-79",
    ]
    assert (
        "".join(piece.text for piece in pieces if not piece.href) == "Ours (), theirs (, Table 3)."
    )


def test_short_head_is_another_field() -> None:
    text = page(a_book(fields=[replace(two_lists(), part=SHORT)]), "muscles/lantern.md")
    long_head, short_head = text.partition("{#short-head}")[::2]
    assert "hb-standing" not in long_head and "hb-standing" in short_head
