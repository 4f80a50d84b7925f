"""The demo catalog's handouts on a local port, and a phone to read them on."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from handout_site import handout_site, visit

from build_tools.catalog.load import load

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def address(moved_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The handout page."""
    with handout_site(tmp_path_factory.mktemp("handout"), load(moved_folder)) as served:
        yield served


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A phone's window."""
    with visit(browser, viewport={"width": 390, "height": 844}) as page:
        yield page
