"""A preview's page is the page of a build, whoever opened what before, and after every save. The reference is ``mkdocs build``."""

from __future__ import annotations

import re
import threading
from pathlib import Path
from typing import Any

import pytest
from running_preview import Preview, edit, serving
from site_building import build, configuration

from build_tools.site.live.demand import Demand

PAGES = (
    "exercises/crate-curl/",
    "muscles/lantern/long-head/",
    "",
    "find/",
    "sources/wick2030/",
    "methods/",
    "handout/",
    "cues/cable-curl/",
    "changes/",
)
FILES = ("data/planner.json", "search/names.json", "changes.atom", "assets/handbook.css")


def body(page: str) -> str:
    """What a reader sees: of the head, tags for pasted links are only built, and live reload is only served."""
    page = page[page.index("<body") :]
    return re.sub(
        r"\s+", " ", re.sub(r"<script[^>]*>[^<]*livereload.*?</script>", "", page, flags=re.S)
    )


def compare(preview: Preview, site: Path) -> None:
    for path in PAGES:
        built = (site / path / "index.html").read_text(encoding="utf-8")
        assert body(preview.wait_for(200, path)) == body(built), path
    for path in FILES:
        assert preview.wait_for(200, path) == (site / path).read_text(encoding="utf-8"), path


def test_a_preview_shows_what_a_build_writes(demo: Path, tmp_path: Path) -> None:
    def built(address: str, name: str) -> Path:
        (tmp_path / name).mkdir()
        changes = {
            "site_url": address,
            "plugins": [{"handbook": {"catalog": str(demo), "offline": False}}],
        }
        return build(configuration(tmp_path / name, demo, **changes))

    (tmp_path / "live").mkdir()
    with serving(tmp_path / "live", demo, "--livereload") as preview:
        compare(preview, built(preview.address, "first"))
        assert preview.ask("exercises/no-such/")[0] == 404
        edit(
            demo / "exercises" / "crate-curl.yaml",
            lambda text: text.replace("Pull your heel", "Pull one heel", 1),
        )
        while "Pull one heel" not in preview.wait_for(200, "exercises/crate-curl/"):
            pass
        compare(preview, built(preview.address, "second"))


def answered(demand: Demand, path: str, mount: str = "/") -> list[str]:
    """Paths that the server behind was asked for."""
    found: list[str] = []

    def server(environ: dict[str, Any], start: Any) -> list[bytes]:
        found.append(environ["PATH_INFO"])
        return []

    demand.before(server, mount)({"PATH_INFO": path}, None)
    return found


@pytest.mark.parametrize(
    ("mount", "path", "uri"),
    [
        ("/", "/lamps/", "lamps.md"),
        ("/", "/lamps", "lamps.md"),
        ("/", "/lamps/index.html", "lamps.md"),
        ("/", "/", "index.md"),
        ("/book/", "/book/lamps/", "lamps.md"),
        ("/", "/../lamps/", "lamps.md"),
        ("/", "/lamp.svg", "lamp.svg"),
        ("/", "/livereload/1/1", None),
        ("/book/", "/lamps/", None),
        ("/", "/other/", None),
    ],
)
def test_what_is_asked_for_is_made_first_and_once(mount: str, path: str, uri: str | None) -> None:
    made: list[str] = []
    demand = Demand()
    waiting = {"lamps/index.html": "lamps.md", "index.html": "index.md", "lamp.svg": "lamp.svg"}
    demand.wait(waiting, made.append)
    assert answered(demand, path, mount) == [path] == answered(demand, path, mount)
    assert made == ([uri] if uri else [])


def test_what_fails_is_told_each_time() -> None:
    demand = Demand()

    def fail(uri: str) -> None:
        raise ValueError(uri)

    demand.wait({"lamp.svg": "lamp.svg"}, fail)
    for _ in range(2):
        with pytest.raises(ValueError, match=r"lamp\.svg"):
            demand.fetch("lamp.svg")


def test_nobody_is_served_while_pages_are_declared_anew() -> None:
    demand, made = Demand(), threading.Event()
    demand.wait({"lamp.svg": "lamp.svg"}, lambda uri: made.set())
    with demand.lock:
        reader = threading.Thread(target=demand.fetch, args=("lamp.svg",))
        reader.start()
        assert not made.wait(0.2)
    reader.join(10)
    assert made.is_set()
