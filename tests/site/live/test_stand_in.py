"""A preview answers while its pages cannot be made: a real ``mkdocs serve``, asked over HTTP and in Chromium."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from folders import ROOT
from running_preview import INSTEAD, PATIENCE, edit, serving
from site_building import configuration

from build_tools.catalog.finding import Finding, Spot
from build_tools.checks.runner import GradedFinding
from build_tools.site.live.stand_in import StandIn

if TYPE_CHECKING:
    from playwright.sync_api import Browser

SLIP = ("equipment: [crate]", "equipmnt: [crate]")


def words(page: str) -> str:
    page = re.sub(r"<(style|script)>.*?</\1>", "", page, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


@pytest.mark.parametrize("options", [(), ("--strict",)], ids=["plain", "strict"])
def test_a_preview_begins_with_a_broken_catalog(
    demo: Path, tmp_path: Path, options: tuple[str, ...]
) -> None:
    """It answers at once, at every address, breaks again and comes back; the last site is made anew only when the catalog is whole."""
    file = demo / "exercises" / "crate-curl.yaml"
    edit(file, lambda text: text.replace(*SLIP))
    with serving(tmp_path, demo, "--livereload", *options) as preview:
        told = words(preview.wait_for(INSTEAD))
        assert "exercises/crate-curl.yaml:3:1" in told and "Did you mean equipment" in told
        assert "unknown-key" in told
        for path in ("exercises/crate-curl/", "find/index.html", "nowhere"):
            assert preview.ask(path)[0] == INSTEAD
        edit(file, lambda text: text.replace(*reversed(SLIP)))
        assert "Crate curl" in preview.wait_for(200, "exercises/crate-curl/")
        before = preview.ask("exercises/cable-curl/")
        edit(file, lambda text: text.replace("cites:", "cite:", 1))
        told = words(preview.wait_for(INSTEAD, "exercises/crate-curl/"))
        assert "cite" in told
        # Files beside the pages are those of the last good site.
        assert preview.ask("assets/handbook.css", PATIENCE)[0] == 200
        edit(file, lambda text: text.replace("cite:", "cites:", 1))
        preview.wait_for(200, "exercises/crate-curl/")
        assert words(preview.ask("exercises/cable-curl/")[1])[:500] == words(before[1])[:500]
        log = preview.log.read_text()
        assert "the preview shows what to mend" in log and "stays as it was" not in log
        assert "Traceback" not in log


def test_another_fault_of_the_build_is_shown_too(demo: Path, tmp_path: Path) -> None:
    """A page in the content folder under the name of one that the handbook makes."""
    pages = tmp_path / "pages"
    pages.mkdir()
    (pages / "index.md").write_text("# Home\n")
    with serving(tmp_path, demo, "--livereload", docs_dir=str(pages)) as preview:
        preview.wait_for(200)
        (pages / "rules.md").write_text("# Mine\n")
        told = words(preview.wait_for(INSTEAD))
        assert "rules.md stands in the content folder" in told and "rename one" in told
        (pages / "rules.md").unlink()
        preview.wait_for(200)


def test_without_live_reload_it_still_says_what_to_mend(demo: Path, tmp_path: Path) -> None:
    edit(demo / "exercises" / "crate-curl.yaml", lambda text: text.replace(*SLIP))
    with serving(tmp_path, demo, "--no-livereload") as preview:
        told = preview.wait_for(200)
        assert "exercises/crate-curl.yaml:3:1" in words(told) and "<script>" not in told
        assert "exercises/crate-curl.yaml:3:1" in words(preview.ask("exercises/crate-curl/")[1])


def test_a_taken_port_is_named_in_words(demo: Path, tmp_path: Path) -> None:
    config = configuration(tmp_path, demo)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        told = subprocess.run(
            [sys.executable, "-m", "mkdocs", "serve", "-f", str(config), "-a", f"127.0.0.1:{port}"],
            capture_output=True,
            text=True,
            timeout=PATIENCE,
            env={
                **os.environ,
                "PYTHONPATH": str(ROOT),
                "NO_MKDOCS_2_WARNING": "1",
                "HANDBOOK_TARGETS": "serve",
            },
        )
    assert told.returncode == 1 and "Traceback" not in told.stderr
    assert f"port {port} is taken" in told.stderr
    command = re.search(r'`make serve ARGS="-a 127\.0\.0\.1:(\d+)"`', told.stderr)
    assert command and int(command[1]) > port


def test_in_a_browser_the_page_comes_back_where_the_coach_was(
    demo: Path, tmp_path: Path, browser: Browser
) -> None:
    file = demo / "exercises" / "crate-curl.yaml"
    with serving(tmp_path, demo, "--livereload") as preview:
        preview.wait_for(200, "exercises/crate-curl/")
        page = browser.new_page(viewport={"width": 390, "height": 844}, color_scheme="dark")
        page.set_default_timeout(PATIENCE * 1000)
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.goto(preview.address + "exercises/crate-curl/#cautions")
        page.evaluate("window.scrollTo(0, 700)")
        page.wait_for_timeout(300)
        was = page.evaluate("window.scrollY")
        edit(file, lambda text: text.replace(*SLIP))
        page.wait_for_selector("h1:has-text('2 things to mend')")
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        dark = page.evaluate("getComputedStyle(document.querySelector('main')).backgroundColor")
        assert max(map(int, re.findall(r"\d+", dark)[:3])) < 60
        edit(file, lambda text: text.replace(*reversed(SLIP)))
        page.wait_for_selector("h1:has-text('Crate curl')")
        page.wait_for_function(f"window.scrollY === {was}")
        assert was > 0 and page.url.endswith("exercises/crate-curl/#cautions")
        assert {url.split("/")[2] for url in asked if url.startswith("http")} == {
            preview.address.split("/")[2]
        }
        page.close()


@pytest.mark.parametrize("hostile", ["<script>alert(1)</script>", "\ud800", "`a`` b"])
def test_what_an_author_wrote_is_shown_as_text(hostile: str) -> None:
    stand_in = StandIn()
    finding = Finding("rule", Spot(f"{hostile}.yaml", 1, 1), hostile, hostile)
    stand_in.show([GradedFinding(finding, "error")], "catalog")
    shown = b"".join(stand_in.before(lambda *_: [])({"PATH_INFO": "/"}, lambda *_: None))
    assert b"<script>alert" not in shown and b"1.yaml:1:1" not in shown


def test_what_stops_the_pages_is_told_first() -> None:
    found = [
        GradedFinding(Finding("r", Spot("a", 1, 1), severity, "h"), severity)
        for severity in ("notice", "warning", "error")
    ]
    stand_in = StandIn()
    stand_in.show(found, "catalog")  # type: ignore[arg-type]
    shown = b"".join(stand_in.before(lambda *_: [])({"PATH_INFO": "/"}, lambda *_: None)).decode()
    assert re.findall(r"(Error|Warning|Notice)\.", shown) == ["Error", "Warning", "Notice"]
    stand_in.clear()
    assert stand_in.before(lambda *_: [b"real"])({"PATH_INFO": "/"}, lambda *_: None) == [b"real"]
