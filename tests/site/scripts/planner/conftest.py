"""The shipped handbook's working pages in Chromium."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from handout_site import Watched, once_more, watch

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="session")
def data(shipped_site: Path) -> dict[str, Any]:
    """What the pages are given."""
    return json.loads((shipped_site / "data/planner.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def opened(browser: Browser, shipped_address: str) -> Iterator[Watched]:
    with watch(browser, base_url=shipped_address) as watched:
        yield watched


@pytest.fixture
def page(opened: Watched) -> Iterator[Page]:
    with once_more(opened) as page:
        yield page
