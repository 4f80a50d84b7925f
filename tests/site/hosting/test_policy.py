"""Every page obeys the policy that the site is published with.

The judge is Chromium, which follows the W3C's Content Security Policy Level 3 and tells each violation; hashes against the example of
section 2.3.1 there ("alert('Hello, world.');").
"""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from folders import DEMO
from mkdocs.exceptions import Abort
from site_building import build, configuration
from site_serving import LISTEN, Quiet, Server, watched

from build_tools.site.hosting.headers import headers
from build_tools.site.hosting.policy import MARK, Policies, hashed, inline, policy

if TYPE_CHECKING:
    from playwright.sync_api import Browser

HASH = re.compile(r"'sha256-[A-Za-z0-9+/]{43}='")
SAID = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')


def published(site: Path) -> dict[str, str]:
    """The headers that ``_headers`` gives every path."""
    first, *lines = (site / "_headers").read_text(encoding="utf-8").splitlines()
    assert first == "/*" and all(line.startswith("  ") for line in lines)
    return dict(line.strip().split(": ", 1) for line in lines)


# --- what it says ------------------------------------------------------------


def test_a_hash_is_that_of_the_standards_example() -> None:
    assert (
        hashed("alert('Hello, world.');") == "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
    )


def test_no_page_allows_what_stands_inline_as_such(demo_site: Path) -> None:
    pages = sorted(demo_site.rglob("*.html"))
    assert len(pages) > 30
    for page in pages:
        said = SAID.search(page.read_text(encoding="utf-8"))
        assert said, page
        assert said[1].startswith(f"{MARK}; ") and "unsafe" not in said[1], page
        assert "*" not in said[1] and "http" not in said[1].replace("https://", "!"), page
    whole = published(demo_site)["Content-Security-Policy"]
    assert "unsafe" not in whole and "worker-src 'self'" in whole
    # Several hosts take no longer line.
    assert len(whole) < 2000


def test_what_stands_inline_on_a_page_of_the_theme_is_listed_once(demo_site: Path) -> None:
    """Scripts of the theme alone, whatever the page: one for each of five depths, and two. No style."""
    found = {
        source
        for page in demo_site.rglob("*.html")
        if "md-main" in (text := page.read_text(encoding="utf-8"))
        for source in inline(text)
    }
    said = SAID.search((demo_site / "index.html").read_text(encoding="utf-8"))
    assert said and len(found) <= 7
    assert found <= {*HASH.findall(published(demo_site)["Content-Security-Policy"])}


def test_several_policies_become_one() -> None:
    both = headers([policy(img_src=["data:"]), policy(img_src=["'self'"], script_src=["'self'"])])
    assert (
        "default-src 'none'; img-src data: 'self'; base-uri 'none'; form-action 'none'; "
        "script-src 'self'; frame-ancestors 'self'" in both
    )


@pytest.mark.parametrize(
    ("html", "told"),
    [
        ("<script>one()</script>", []),
        ('<script type="application/json">{}</script>', []),
        ('<script src="a.js"></script><img src="b.png"><a href="https://x.example/">x</a>', []),
        ("<p>style=x onclick=y</p><p title=' onclick=y'>", []),
        ("<script>two()</script>", ["a <script> in the page"]),
        ('<script type="module">two()</script>', ["a <script> in the page"]),
        ("<style>p {}</style>", ["a <style> in the page"]),
        ("<p style='x'>", ["the attribute `style`"]),
        ("<p onclick='x'>", ["the attribute `onclick`"]),
        ("<img src='https://x.example/a.png'>", ["a file of x.example"]),
        ("<link rel=stylesheet href='//x.example/a.css'>", ["a file of x.example"]),
        ("<img src='https://own.example/a.png'>", []),
    ],
)
def test_what_would_be_refused_is_told(html: str, told: list[str]) -> None:
    policies = Policies(lambda base: [hashed("one()")])
    assert policies.refused(html, "..", "own.example") == told


def test_a_page_written_by_hand_that_breaks_it_stops_a_strict_build(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    content = tmp_path / "content"
    content.mkdir()
    (content / "index.md").write_text("# Home\n\n| a |\n|--:|\n| 1 |\n")
    config = configuration(tmp_path, DEMO, docs_dir=str(content), nav=None)
    build(config, strict=True)  # the side of a column is no style
    (content / "index.md").write_text("# Home\n\n<script>alert(1)</script>\n")
    with pytest.raises(Abort):
        build(config, strict=True)
    assert "index.md: browsers are told to refuse a <script> in the page" in caplog.text


def test_a_handbooks_own_headers_stand(tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    (content / "index.md").write_text("# Home\n")
    (content / "_headers").write_text("/*\n  X-Mine: 1\n")
    config = configuration(tmp_path, DEMO, docs_dir=str(content), nav=None)
    assert (build(config) / "_headers").read_text() == "/*\n  X-Mine: 1\n"


# --- obeyed ------------------------------------------------------------------


#: Tells what a page's policy or the host's refused, and goes on over pages.
@contextmanager
def hosted(site: Path) -> Iterator[str]:
    """A site with the headers that it asks for."""
    sent = published(site)

    class Host(Quiet):
        def end_headers(self) -> None:
            for name, value in sent.items():
                self.send_header(name, value)
            super().end_headers()

    with Server(("127.0.0.1", 0), partial(Host, directory=str(site))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def kinds(site: Path) -> list[str]:
    """Two pages of each type: those of one folder are of one type, but for the folder's first."""
    found: dict[str, list[str]] = {}
    for page in sorted(site.rglob("*.html")):
        path = page.relative_to(site).as_posix().removesuffix("index.html")
        # What a page is made of besides its words: an entry's page and one that leads to it differ.
        text = page.read_text(encoding="utf-8")
        shape = f"{path.count('/')} {path.partition('/')[0]} {'refresh' in text} {len(SAID.findall(text))}"
        found.setdefault(shape, []).append(path)
    return [path for paths in found.values() for path in paths[:2]]


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_kind_of_page_obeys_the_policy_and_asks_no_other_host(
    browser: Browser, demo_site: Path, scheme: str
) -> None:
    with hosted(demo_site) as address, browser.new_context(color_scheme=scheme) as context:
        page, wrong = watched(context, address)
        paths = kinds(demo_site)
        assert len(paths) > 30
        for path in paths:
            page.goto(address + path)
            page.wait_for_load_state("networkidle")
            assert not wrong, (path, wrong)


@pytest.mark.browser
def test_what_the_policy_stops_does_not_run(
    browser: Browser, demo_site: Path, tmp_path: Path
) -> None:
    """The test before this one could fail: the same page with a script that nobody listed."""
    text = (demo_site / "index.html").read_text(encoding="utf-8")
    assert "</body>" in text
    (tmp_path / "index.html").write_text(
        text.replace(
            "</body>", "<script>document.title = 'ran'</script><p style='color:red'></body>"
        )
    )
    (tmp_path / "_headers").write_bytes((demo_site / "_headers").read_bytes())
    with hosted(tmp_path) as address, browser.new_context() as context:
        context.add_init_script(LISTEN)
        page, said = context.new_page(), []
        page.on("console", lambda message: said.append(message.text))
        page.goto(address)
        assert page.title() != "ran"
        assert {line.split()[1] for line in said if line.startswith("violation:")} == {
            "script-src-elem",
            "style-src-attr",
        }
