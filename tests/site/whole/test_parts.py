"""A coach's questions on parts, asked of the shipped handbook in a browser: the answer within one click and forty words.

Eight questions of a coach who tried the handbook; what papers report of them stands in ``tests/evidence_map``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import axe
import pytest
import shipped_made

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

#: Words before the answer: from the title to the card.
BEFORE = """() => { const range = document.createRange();
  range.setStart(document.querySelector("article"), 0); range.setEndBefore(document.querySelector("article .hb-answer"));
  return range.toString().split(/\\s+/).filter(Boolean).length; }"""
PARTS = [
    f"muscles/{id}/{part}/"
    for id, muscle in shipped_made.catalog().muscles.items()
    for part in muscle.data.parts
]


@pytest.fixture(scope="module")
def page(browser: Browser, shipped_address: str) -> Iterator[Page]:
    with browser.new_context(
        base_url=shipped_address, viewport={"width": 390, "height": 844}
    ) as context:
        yield context.new_page()


@pytest.mark.parametrize(
    ("asked", "answers"),
    [
        ("Rectus femoris", ["Leg extension", "13% against 1% with the leg press", "Low: one study"]),
        ("Vastus lateralis", ["None clearly ahead", "No difference reported in growth"]),
        ("Biceps femoris short head", ["Prone leg curl", "Seated leg curl", "No clear difference", "9% against 10%"]),
        ("Triceps brachii long head", ["Overhead cable extension", "28% against 20%"]),
        ("Acromial part of deltoid", ["Cable lateral raise", "Dumbbell lateral raise", "No difference reported"]),
        ("Pectoralis major, clavicular part", ["Incline bench press", "0.62 cm (0.23 to 1)", "do not lean on it yet"]),
        ("Soleus", ["Seated calf raise", "Standing calf raise", "No clear difference", "3% against 2%"]),
        ("Gastrocnemius medial head", ["Standing calf raise", "9% against 1%"]),
        ("Latissimus dorsi", ["one session", "activity does not show"]),  # no lower part is known, and the card says what is
        ("Gluteus medius", ["one session", "activity does not show"]),
    ],
)  # fmt: skip
def test_a_part_answers_within_one_click(page: Page, asked: str, answers: list[str]) -> None:
    page.goto("muscles/")
    line = page.locator("article li li", has_text=re.compile(re.escape(asked), re.IGNORECASE))
    line.first.get_by_role("link").click()
    page.wait_for_selector("article .hb-answer")
    told = page.locator("article .hb-answer").first.inner_text()
    assert all(words in told for words in answers), told
    assert page.locator("article .hb-answer").count() == 1  # the part's own page
    assert page.locator("article .hb-answer").bounding_box()["y"] < 400  # on the first screen


def test_at_most_forty_words_stand_before_the_first_evidence(page: Page) -> None:
    before = {}
    for path in PARTS:
        page.goto(path)
        before[path] = page.evaluate(BEFORE)
        assert page.evaluate("document.documentElement.scrollHeight") <= 8440, path  # ten screens
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, path
    assert max(before.values()) <= 40 and len(before) == 58


@pytest.mark.parametrize(
    "path",
    [
        "muscles/quadriceps/rectus-femoris/",
        "muscles/quadriceps/vastus-lateralis/",
        "muscles/gluteals/gluteus-maximus-upper/",
        "muscles/quadriceps/",
        "muscles/gluteals/",
    ],
)
def test_the_longest_print_on_two_pages(page: Page, path: str) -> None:
    page.goto(path)
    assert len(re.findall(rb"/Type\s*/Page[^s]", page.pdf(format="A4"))) <= 2


@pytest.mark.parametrize(
    ("path", "section"),
    [
        ("muscles/hamstrings/#semitendinosus", "Semitendinosus"),
        ("muscles/calf/#soleus", "Soleus"),
        ("muscles/calf/soleus/#growth", "Growth"),
    ],
)
def test_landing_on_a_part_marks_it_in_the_contents(page: Page, path: str, section: str) -> None:
    page.goto("about:blank")
    page.goto(path)
    page.wait_for_function(
        "name => [...document.querySelectorAll('.md-nav--secondary .md-nav__link--active')].some(e => e.textContent.trim() === name)",
        arg=section,
    )


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    "path", ["muscles/quadriceps/rectus-femoris/", "muscles/calf/soleus/", "muscles/chest/"]
)
def test_axe_finds_nothing_on_a_page_with_all_its_folds_open(
    page: Page, path: str, scheme: str
) -> None:
    page.emulate_media(color_scheme=scheme)
    page.goto(path)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert axe.violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_a_link_to_a_folded_pair_opens_its_fold(page: Page) -> None:
    page.goto("muscles/gluteals/gluteus-medius/")
    anchor = page.evaluate("document.querySelector('[id^=activation-]').id")
    page.goto("about:blank")
    page.goto(f"muscles/gluteals/gluteus-medius/#{anchor}")
    page.wait_for_function(f"() => document.getElementById('{anchor}').checkVisibility()")
