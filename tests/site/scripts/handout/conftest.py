"""The demo catalog's handouts on a local port, and a phone to read them on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from handout_site import visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A phone's window."""
    with visit(browser, viewport={"width": 390, "height": 844}) as page:
        yield page
