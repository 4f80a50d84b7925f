"""A template escapes what it is given."""

from __future__ import annotations

from hostile import HOSTILE
from hypothesis import given
from site_reading import Reader

from build_tools.site.templating import render as render_template


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
