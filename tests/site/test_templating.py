"""A template escapes what it is given, and a stylesheet is sent without what only its authors read."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hostile import HOSTILE
from hypothesis import given
from site_reading import Reader

from build_tools.catalog.palette import Palette
from build_tools.site import looks
from build_tools.site.templating import lean
from build_tools.site.templating import render as render_template

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@given(line=HOSTILE)
def test_notice_passage_holds_its_text(line: str) -> None:
    from build_tools.catalog.entries import Notice

    notice = Notice.model_construct(short=line, help_at_once=[line], long=[line])
    html = render_template(
        "notice.html.jinja", notice=notice, signs=[line], heading="Call for help if"
    )
    assert [tag for tag, _ in Reader(html).elements] == [
        "div",
        "p",
        "b",
        "div",
        "p",
        "b",
        "ul",
        "li",
        "p",
        "ul",
        "li",
    ]


def test_a_lean_stylesheet_says_the_same() -> None:
    """Texts stay, blanks that part two selectors too (CSS Syntax Level 3: white space is one token, none is needed beside braces)."""
    css = """
    /* What it { is: "no" */
    .a > :not(.b):hover, .c .d { color: red; margin: 0 -1px; content: "a; b:  {c}" / ""; }
    @media (max-width: 16rem) and (hover) { a { font: 1rem/1.2 "One, Two", serif; } }
    """
    assert lean(css) == (
        '.a > :not(.b):hover,.c .d{color:red;margin:0 -1px;content:"a; b:  {c}" / ""}'
        '@media (max-width:16rem) and (hover){a{font:1rem/1.2 "One, Two",serif}}'
    )


@pytest.mark.browser
def test_a_browser_reads_the_same_rules(browser: Browser) -> None:
    """Chromium's own reading of every stylesheet, rule by rule; values of custom properties it gives as they were written."""
    with browser.new_page() as page:
        for name in looks.STYLES:
            css = render_template(name, palette=Palette())
            read = """css => { const s = new CSSStyleSheet(); s.replaceSync(css);
                return [...s.cssRules].map((r) => r.cssText.replace(/([,:]) +/g, '$1')); }"""
            assert page.evaluate(read, lean(css)) == page.evaluate(read, css), name
