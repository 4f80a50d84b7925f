"""What a coach does on the page What lags in Chromium: from the question to the week or to a handout, by keyboard, with care first.

What is proposed is tested in ``rules/test_shortlist.py``. Accessibility is judged by axe-core (Deque), an outside checker of WCAG 2.2.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import axe
import pytest
from handout_site import visit
from week_links import PART, link_of, week

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

pytestmark = pytest.mark.browser
SIDE_DELT, UPPER_CHEST = "deltoid/acromial-part", "chest/pectoralis-major-clavicular-part"
BANDS = "band,high-anchor,low-anchor"
PHONE, LAPTOP = {"width": 390, "height": 844}, {"width": 1366, "height": 900}


def cards(page: Page) -> Locator:
    return page.locator("[data-part=proposals] article")


def names(page: Page) -> list[str]:
    cards(page).first.wait_for()
    return cards(page).locator("h3").all_inner_texts()


def ask(page: Page, typed: str) -> None:
    box = page.get_by_role("combobox", name="What lags?")
    box.fill(typed)
    page.get_by_role("option").first.wait_for()
    box.press("Enter")


@dataclass
class Actions:
    """Counts what a coach does: a tick or a press is one, a typed word one and its choice one."""

    page: Page
    count: int = 0

    def press(self, what: Locator) -> None:
        what.click()
        self.count += 1

    def choose(self, typed: str) -> None:
        ask(self.page, typed)
        self.count += 2


def test_from_a_sore_shoulder_to_a_handout_in_six_actions(page: Page) -> None:
    """Lateral deltoid, bands, a sore shoulder: at most 15 were asked for."""
    page.goto("lagging/")
    coach = Actions(page)
    coach.choose("lateral deltoid")
    coach.press(page.get_by_label("Bands", exact=True))
    coach.press(page.get_by_text("What hurts or needs care"))
    coach.press(page.get_by_label("Shoulder", exact=True))
    page.get_by_text("Each only with care").wait_for()
    assert names(page) == ["Band lateral raise"]
    told = cards(page).first.inner_text()
    assert all(head in told for head in ("Who takes care", "Instead", "Stop if", "Ask"))
    # Signs that need help stand above what is proposed, then whom to ask.
    first = page.get_by_role("region", name="Care first")
    assert "Call for emergency help if" in first.inner_text()
    assert re.search("Ask .*physiotherapist", first.inner_text())
    assert first.bounding_box()["y"] < cards(page).first.bounding_box()["y"]  # type: ignore[index]
    coach.press(page.get_by_role("link", name="A handout now"))
    page.wait_for_url("**/handout/#2.**")
    page.get_by_role("heading", name="Band lateral raise").first.wait_for()
    assert coach.count == 6
    assert "5 sets of 8 to 12 repetitions" in page.locator("main").inner_text()


DECODED = """async (hash) => {
    const { decode } = await import(new URL('../scripts/rules/link.js', location.href));
    const { rules } = await (await fetch('../handout/data.json')).json();
    const known = new Map(['band-lateral-raise', 'seated-leg-curl'].map((id) => [id, id]));
    return decode(hash, rules, known);
}"""


def handed(page: Page) -> Any:
    """What the link to the handout carries."""
    href = page.get_by_role("link", name="A handout now").get_attribute("href") or ""
    return page.evaluate(DECODED, href.partition("#")[2])


def test_the_handout_carries_doses_days_and_care(page: Page) -> None:
    page.goto(f"lagging/#parts={SIDE_DELT}&equipment={BANDS}&avoid=shoulder,latex")
    cards(page).first.wait_for()
    page.get_by_label("Sets a day").fill("3")
    page.get_by_label("In reserve").fill("3")
    page.get_by_label("Thursday").uncheck()
    for day in ("Wednesday", "Friday"):
        page.get_by_label(day).check()
    found = handed(page)
    assert (found["care"], found["title"]) == (["shoulder", "latex"], "Side of the shoulder")
    assert [day["day"] for day in found["days"]] == [0, 2, 4]
    rows = [row for day in found["days"] for row in day["items"]]
    assert {(row["id"], row["sets"], row["repetitions"], row["left"]) for row in rows} == {
        ("band-lateral-raise", 3, "8-12", 3)
    }
    assert "the side delt: 0 now, 9 with this" in page.locator("[data-part=gets]").inner_text()


def test_a_field_that_cannot_be_read_keeps_the_links_away(page: Page) -> None:
    page.goto(f"lagging/#parts={SIDE_DELT}")
    cards(page).first.wait_for()
    sets, now = (
        page.get_by_label("Sets a day").first,
        page.get_by_role("link", name="A handout now"),
    )
    sets.fill("none")
    assert sets.get_attribute("aria-invalid") == "true" and not now.is_visible()
    sets.fill("4")
    assert now.is_visible()
    for day in ("Monday", "Thursday"):
        page.get_by_label(day).first.uncheck()
    assert not now.is_visible() and page.get_by_text("Tick a day.").is_visible()


def test_several_parts_are_named_as_coaches_and_anatomists_do_and_put_in_order(page: Page) -> None:
    page.goto("lagging/")
    chosen = page.locator("[data-part=chosen] b")
    for number, typed in enumerate(["semitendinosus", "upper chest", "musculus soleus"], 1):
        ask(page, typed)
        chosen.nth(number - 1).wait_for()
    assert len(chosen.all_inner_texts()) == 3
    page.get_by_role("button", name=re.compile("^Put .*[Ss]oleus.* first$")).press("Enter")
    page.wait_for_url(re.compile("#parts=calf/soleus,"))
    assert page.evaluate("document.activeElement.id") == "what"
    page.get_by_role("button", name="Remove Upper chest").press("Enter")
    page.wait_for_url(re.compile(f"#parts=calf/soleus,{PART}$"))
    page.get_by_role("button", name=re.compile("^Remove .*[Ss]oleus")).press("Enter")
    ask(page, "calf")  # a muscle asks for all its parts
    page.wait_for_url(re.compile("calf/soleus"))
    assert chosen.count() > 2


def test_nothing_fits_and_one_press_helps(page: Page) -> None:
    page.goto("lagging/#parts=back/latissimus-dorsi&equipment=none&avoid=knee")
    more = page.get_by_role("button", name="With pull-up bar: 3 more.")
    more.wait_for()
    assert page.get_by_label("No equipment").is_checked() and page.get_by_label("Knee").is_checked()
    assert not cards(page).count()
    more.press("Enter")
    cards(page).first.wait_for()
    assert "equipment=pull-up-bar" in page.url
    page.get_by_label("Bands and dumbbells").check()
    page.wait_for_url(re.compile("equipment=band,dumbbell,high-anchor,low-anchor"))
    page.get_by_text("Single things").click()
    assert page.get_by_label("Elastic band").is_checked()
    assert not page.get_by_label("Cable pulley").is_checked()


def test_a_main_lift_is_put_in_place_of_the_weeks_or_beside_it(page: Page) -> None:
    """Chaves et al. 2020 on the upper chest, incline against flat press."""
    given = link_of({0: ["bench-press"], 3: ["bench-press"]}, load="60 kg")
    page.goto(f"lagging/#parts={UPPER_CHEST}&{given}")
    assert names(page)[0] == "Incline bench press"
    assert "in place of the bench press, or beside it" in cards(page).first.inner_text()
    for day in page.get_by_role("checkbox", name=re.compile("day: ")).all():
        day.uncheck()
    page.get_by_label("In its place: Incline bench press").check()
    page.get_by_role("link", name="Into the week").click()
    page.wait_for_url("**/week/#**")
    page.locator("[data-part=days] .hb-row").first.wait_for()
    rows = page.locator("[data-part=days] .hb-row__name a").all_inner_texts()
    assert rows == ["Incline bench press"] * 2
    assert page.locator("[data-part=days] [data-field=load]").first.input_value() == ""


def test_what_the_week_holds_gets_another_day(page: Page) -> None:
    page.goto(f"lagging/#parts={PART}&{link_of({0: ['seated-leg-curl'], 3: ['back-squat']})}")
    assert names(page)[0] == "Seated leg curl"
    assert "Your week holds it already" in cards(page).first.inner_text()
    first = cards(page).first
    assert first.get_by_label(
        "Thursday"
    ).is_checked()  # the client comes, and it is not trained then
    first.get_by_label("Monday").check()
    first.get_by_label("Sets a day").fill("2")
    assert {(day["day"], day["items"][0]["sets"]) for day in handed(page)["days"]} == {
        (0, 5),
        (3, 2),
    }
    page.get_by_role("link", name="Into the week").press("Enter")
    page.wait_for_url("**/week/#**")
    page.locator("[data-part=days] .hb-row").first.wait_for()
    names_in_week = page.locator("[data-part=days] .hb-row__name a").all_inner_texts()
    assert names_in_week == ["Seated leg curl", "Back squat", "Seated leg curl"]


def test_the_coach_takes_another_one_of_the_list(page: Page) -> None:
    page.goto(f"lagging/#parts={SIDE_DELT}")
    before = names(page)
    page.get_by_text(re.compile("^All [0-9]+ for the side delt")).click()
    page.get_by_role("button", name="Take it: Band lateral raise").press("Enter")
    assert names(page) == [*before, "Band lateral raise"]
    assert cards(page).last.get_by_label("Monday").is_checked()


def test_a_tie_is_told_with_its_number(page: Page) -> None:
    page.goto("lagging/#parts=calf/soleus")
    names(page)
    assert "2 exercises share this place" in cards(page).first.inner_text()
    assert "Growth measured, no clear difference" in cards(page).first.inner_text()


def test_an_old_link_still_asks_the_same(page: Page) -> None:
    """As the first version wrote them; its week was of version 1."""
    page.goto(
        f"lagging/#parts={PART},calf/soleus&equipment=barbell,cable&avoid=knee&{week('back-squat')}"
    )
    page.locator("[data-part=options] details").first.wait_for()
    assert page.locator("[data-part=chosen] li").count() == 2
    assert page.get_by_label("Knee").is_checked()
    assert "Back squat" in page.locator("[data-part=held]").inner_text()
    assert f"#parts={PART},calf/soleus&equipment=barbell,cable&avoid=knee&week=" in page.url


def test_nothing_but_the_sites_own_files_is_asked_for(
    browser: Browser, shipped_address: str
) -> None:
    with visit(browser, base_url=shipped_address) as page:
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.goto(f"lagging/#parts={SIDE_DELT}&avoid=shoulder")
        names(page)
        page.get_by_label("Sets a day").first.fill("3")
        assert all(url.startswith(shipped_address) for url in asked)
        data = {url.partition("/data/")[2] for url in asked if "/data/" in url}
        assert data == {"planner.json", "planner/deltoid.json", "names.json", "care/shoulder.json"}


@pytest.mark.parametrize("size", [LAPTOP, PHONE], ids=["laptop", "phone"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_and_the_page_fits(
    browser: Browser, shipped_address: str, scheme: str, size: dict[str, int]
) -> None:
    with visit(browser, base_url=shipped_address, color_scheme=scheme, viewport=size) as page:
        given = link_of({0: ["bench-press"]})
        page.goto(f"lagging/#parts={UPPER_CHEST},{SIDE_DELT}&avoid=shoulder,blood-pressure&{given}")
        cards(page).first.wait_for()
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        assert axe.violations(page) == []
        page.locator("#what").fill("calf")
        page.get_by_role("option").first.wait_for()
        assert axe.violations(page) == []


def test_without_scripts_the_page_says_what_it_does(browser: Browser, shipped_address: str) -> None:
    with visit(browser, base_url=shipped_address, java_script_enabled=False) as page:
        page.goto("lagging/")
        link = page.locator('[data-part="plain"]').get_by_role("link", name="muscles")
        assert link.get_attribute("href") == "../muscles/"
        assert not page.locator('[data-part="tool"]').is_visible()
