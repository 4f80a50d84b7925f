"""The shipped handbook's working pages in Chromium."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from handout_site import visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="session")
def data(shipped_site: Path) -> dict[str, Any]:
    """What the pages are given."""
    return json.loads((shipped_site / "data/planner.json").read_text(encoding="utf-8"))


@pytest.fixture
def address(shipped_address: str) -> str:
    return shipped_address


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with visit(browser, base_url=address) as page:
        yield page
