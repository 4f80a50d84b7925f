"""Books and built sites of the invented demo catalog and of the shipped one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from site_building import DEMO, ROOT, build, configuration, render

from build_tools.catalog.load import load
from build_tools.site import book


@pytest.fixture(scope="session", autouse=True)
def _one_day() -> Iterator[None]:
    """Reviews are judged by 1 December 2026, whenever the tests run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SOURCE_DATE_EPOCH", "1796083200")
        yield


@pytest.fixture(scope="session")
def demo_book() -> book.Book:
    """The demo catalog's book."""
    return render(load(DEMO, "catalog"))


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo catalog's site, built strictly."""
    return build(configuration(tmp_path_factory.mktemp("demo"), DEMO), strict=True)


@pytest.fixture(scope="session")
def shipped_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shipped catalog's site."""
    return build(configuration(tmp_path_factory.mktemp("shipped"), ROOT / "catalog"))
