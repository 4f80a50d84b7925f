"""The choice of colours in Chromium: what a reader chose stands before anything is painted, and the theme's own script goes on from it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from folders import DEMO
from site_building import build, configuration
from site_serving import serve

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext

pytestmark = pytest.mark.browser
SCHEME = "document.body.dataset.mdColorScheme"
#: The scheme as it stood when the page was read and no other script had run.
FIRST = f"document.addEventListener('DOMContentLoaded', () => {{ window.first = {SCHEME}; }});"


@pytest.fixture(params=["light", "dark"])
def context(
    request: pytest.FixtureRequest, browser: Browser, demo_address: str
) -> Iterator[BrowserContext]:
    with browser.new_context(base_url=demo_address, color_scheme=request.param) as made:
        yield made


def test_a_choice_is_kept_and_comes_first(context: BrowserContext) -> None:
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.goto("methods/")
    for _ in range(3):  # the system's colours, light, dark, in whatever order they come
        name = page.locator(".hb-scheme:visible").get_attribute("title")
        page.locator(".hb-scheme:visible").click()
        chosen = page.evaluate(SCHEME)
        if name != "Follow the system's colours":
            assert chosen == {"light": "default", "dark": "slate"}[str(name).split()[2]]
        again = context.new_page()
        again.add_init_script(FIRST)
        again.goto("exercises/")
        assert again.evaluate("window.first") == chosen == again.evaluate(SCHEME)
        assert again.locator(".hb-scheme:visible").count() == 1
        again.close()
    assert wrong == []


def test_what_readers_chose_before_still_holds(context: BrowserContext) -> None:
    """As the theme (Material for MkDocs 9.8) keeps it: under the site's path, with the colours of the choice."""
    page = context.new_page()
    page.goto("methods/")
    page.evaluate(
        """localStorage.setItem("/.__palette", JSON.stringify({ index: 2, color: { media: "(prefers-color-scheme: dark)", scheme: "slate",
            primary: "custom", accent: "custom" } }))"""
    )
    page.reload()
    assert page.evaluate(SCHEME) == "slate"


@pytest.fixture(scope="module")
def beside(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A host of several handbooks that share what a reader chose; the one in ``ours/`` has pages with tabs."""
    folder = tmp_path_factory.mktemp("host")
    (folder / "docs").mkdir()
    for name in ("one", "two"):
        tabs = "".join(f'=== "{word}"\n\n    {word} {name}.\n\n' for word in ("Metric", "Imperial"))
        (folder / "docs" / f"{name}.md").write_text(f"# {name}\n\n{tabs}", encoding="utf-8")
    config = configuration(
        folder,
        DEMO,
        docs_dir=str(folder / "docs"),
        site_dir=str(folder / "served" / "ours"),
        theme={"name": "material", "features": ["content.tabs.link"]},
        markdown_extensions=[{"pymdownx.tabbed": {"alternate_style": True}}],
        extra={"scope": "/"},
    )
    build(config)
    with serve(folder / "served") as address:
        yield address


def test_what_a_handbook_names_as_its_scope_holds_for_all_within(
    browser: Browser, beside: str
) -> None:
    """Material for MkDocs: ``extra.scope`` tells under which path the theme keeps a choice; a neighbour's choice is ours, too."""
    with browser.new_context(base_url=beside, color_scheme="light") as context:
        page = context.new_page()
        page.goto("ours/one/")
        page.evaluate(
            """localStorage.setItem("/.__palette", JSON.stringify({ index: 2, color: { media: "(prefers-color-scheme: dark)",
                scheme: "slate", primary: "custom", accent: "custom" } }))"""
        )
        page.reload()
        assert page.evaluate(SCHEME) == "slate"
        page.locator(".hb-scheme:visible").click()
        assert page.evaluate("Object.keys(localStorage)") == ["/.__palette"]


def test_a_tab_that_was_chosen_is_open_on_the_next_page(browser: Browser, beside: str) -> None:
    """The theme's script (``content.tabs.link``) keeps the tab's name, ours opens it again; an address that names a tab comes first."""
    shown = ".tabbed-content .tabbed-block:visible"
    with browser.new_context(base_url=beside) as context:
        page = context.new_page()
        page.goto("ours/one/")
        assert page.locator(shown).inner_text() == "Metric one."
        page.get_by_text("Imperial", exact=True).click()
        page.wait_for_function("localStorage.getItem('/.__tabs')")
        page.goto("ours/two/")
        assert page.locator(shown).inner_text() == "Imperial two."
        page.goto("about:blank")
        page.goto("ours/two/#__tabbed_1_1")
        assert page.locator(shown).inner_text() == "Metric two."


def test_without_scripts_no_choice_is_offered(browser: Browser, demo_address: str) -> None:
    with browser.new_context(base_url=demo_address, java_script_enabled=False) as context:
        page = context.new_page()
        page.goto("methods/")
        assert page.locator("[name=__palette]").count() == 0
        assert page.locator("h1").is_visible()
