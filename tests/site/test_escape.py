"""Headings and front matter hold any text: read back with Markdown and PyYAML."""

from __future__ import annotations

import markdown
import yaml
from hostile import HOSTILE
from hypothesis import given
from site_reading import Reader

from build_tools.site.escape import front_matter, heading, plain


@given(text=HOSTILE)
def test_headings_are_one_heading_and_nothing_else(text: str) -> None:
    html = markdown.markdown(
        f"# {heading('a' + text + 'a')} {{#top}}\n", extensions=["attr_list", "toc"]
    )
    assert Reader(html).elements == [("h1", ("id",))]


@given(title=HOSTILE, description=HOSTILE)
def test_front_matter_reads_back(title: str, description: str) -> None:
    written = str(front_matter({"title": title, "description": description}))
    assert yaml.safe_load(written.removeprefix("---\n").removesuffix("---")) == {
        "title": plain(title),
        "description": plain(description),
    }
    assert not set('<>"&\n') & set(plain(title))
