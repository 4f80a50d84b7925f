"""Shared by all tests: the invented demo catalog, a browser, and no traces outside the test's own folder."""

from __future__ import annotations

import gc
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import hypothesis
import pytest
from folders import DEMO, ROOT
from hypothesis.configuration import set_hypothesis_home_dir

if TYPE_CHECKING:
    from playwright.sync_api import Browser

set_hypothesis_home_dir(ROOT / ".venv" / "cache" / "hypothesis")
# A shared or busy machine must not fail a test by being slow; under CI the same examples every time.
hypothesis.settings.register_profile("handbook", deadline=None, derandomize="CI" in os.environ)
hypothesis.settings.load_profile("handbook")

# Messages name commands as they are typed here: by their name alone, whoever started the tests and however.
os.environ.pop("HANDBOOK_TARGETS", None)
os.environ["PATH"] = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])

#: Names under which distributions and runners install Chromium.
CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def pytest_collection_finish() -> None:
    """What was collected stays to the end, so Python need not search it for garbage again and again."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def _plain_surroundings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Reports follow these variables; a test that wants one sets it itself."""
    told = ("ACTIONS", "REPOSITORY", "SERVER_URL", "STEP_SUMMARY", "WORKSPACE")
    for name in (*(f"GITHUB_{part}" for part in told), "NO_COLOR", "FORCE_COLOR", "SITE_URL"):
        monkeypatch.delenv(name, raising=False)


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the invented demo catalog, free to be broken."""
    return Path(shutil.copytree(DEMO, tmp_path / "catalog"))


@pytest.fixture
def command_line(monkeypatch: pytest.MonkeyPatch) -> None:
    """A plain command line on 2026-12-01, a month after the demo's reviews."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1796083200")
    monkeypatch.setenv("PYTHONPATH", str(ROOT))
    for name in ("GITHUB_WORKSPACE", "TERM"):
        monkeypatch.delenv(name, raising=False)


@pytest.fixture
def here(demo: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the demo catalog, standing in the folder that holds it."""
    monkeypatch.chdir(demo.parent)
    return demo


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Headless Chromium without access to anything but localhost. Missing: skipped, but a failure under CI."""
    path = os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, CHROMIUM)), None)
    if path is None:
        (pytest.fail if "CI" in os.environ else pytest.skip)(
            "no Chromium found; install it, or set CHROMIUM to its path"
        )
    from playwright.sync_api import sync_playwright

    quiet = [
        "--no-sandbox",
        "--disable-background-networking",
        "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost",
    ]
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=quiet)
        yield chromium
        chromium.close()
