"""Pages of one's own and those that the engine lends, and what is asked of them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from build_tools.site import hand_written
from build_tools.site.book import Book


def asked(book: Book, **pages: str) -> list[str]:
    written = {
        "index.md": "# Home\n",
        **{uri: hand_written.lent(uri) for uri in hand_written.LENT},
        **{f"{name}.md": text for name, text in pages.items()},
    }
    return hand_written.demands(book.shelf, written, "content")


def test_what_a_folder_has_not_is_lent(tmp_path: Path) -> None:
    (tmp_path / "methods.md").write_text("# Ours\n", encoding="utf-8")
    (tmp_path / "more").mkdir()
    (tmp_path / "more" / "staff.md").write_text("# Staff\n", encoding="utf-8")
    (tmp_path / ".draft.md").write_text("# No\n", encoding="utf-8")
    found = hand_written.pages(tmp_path)
    assert set(found) == {"cautions.md", "methods.md", "more/staff.md"}
    assert found["methods.md"] == "# Ours\n"
    assert found["cautions.md"] == hand_written.lent("cautions.md")


def test_the_lent_pages_are_in_order(demo_book: Book) -> None:
    assert asked(demo_book) == []


def test_a_home_page_is_asked_for(demo_book: Book) -> None:
    [told] = hand_written.demands(demo_book.shelf, {}, "pages")
    assert told.startswith("pages/index.md is missing: write what the handbook is for")


def test_a_page_that_others_link_into_keeps_the_places(demo_book: Book) -> None:
    whole = hand_written.lent("methods.md")
    [told] = asked(demo_book, methods=whole.replace("{#certainty}", ""))
    assert "content/methods.md: other pages link to `#certainty`, which is not there" in told
    assert "write `## Heading {#certainty}`" in told


def test_cautions_of_ones_own_show_the_notice_and_every_concern(demo_book: Book) -> None:
    told = asked(demo_book, cautions="# Cautions\n")
    assert any("write `<!-- handbook: notice -->`" in one for one in told)
    assert any("`#by-concern`" in one for one in told)
    own = "# Cautions\n\n<!-- handbook: notice -->\n\n## All {#by-concern}\n\n<!-- handbook: by concern -->\n"
    assert asked(demo_book, cautions=own) == []


@pytest.mark.parametrize("name", ["My Page", "README", "faq_long"])
def test_a_page_is_named_as_addresses_are(demo_book: Book, name: str) -> None:
    [told] = asked(demo_book, **{name: "# Mine\n"})
    assert f"content/{name}.md: a page's name is its address for good" in told
    assert f"{name}.md" not in hand_written.addresses({f"{name}.md": ""})


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
@pytest.mark.parametrize(
    ("name", "to", "told"),
    [
        ("etc", "/etc", "is a link out of the folder"),
        ("up", "..", "is a link out of the folder"),
        ("self", ".", "is a link to a folder that holds it"),
        ("more/above", "..", "is a link to a folder that holds it"),
        ("loop", "loop", "leads to nothing or to itself"),
        ("gone", "no-such", "leads to nothing or to itself"),
        ("fine.md", "index.md", None),
        ("more/fine", "../other", None),
    ],
)
def test_a_link_that_would_publish_something_else_is_told(
    tmp_path: Path, name: str, to: str, told: str | None
) -> None:
    content = tmp_path / "content"
    for folder in ("more", "other"):
        (content / folder).mkdir(parents=True)
    (content / "index.md").write_text("# Home\n", encoding="utf-8")
    (content / name).symlink_to(to)
    found = hand_written.links(content, "content")
    assert (found is None) == (told is None)
    if told is not None:
        assert found is not None and found.startswith(f"content/{name} ") and told in found


@pytest.mark.skipif(os.name == "nt", reason="has no such pipes")
@pytest.mark.parametrize("name", ["pipe.md", "more/pipe.png"])
def test_a_pipe_is_told_and_not_waited_for(tmp_path: Path, name: str) -> None:
    """A build that reads one (mkfifo) waits for ever."""
    (tmp_path / "more").mkdir()
    os.mkfifo(tmp_path / name)
    assert hand_written.links(tmp_path, "content") == (
        f"content/{name} is neither a file nor a folder; take it away"
    )
