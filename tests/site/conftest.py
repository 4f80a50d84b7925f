"""Books and built sites of the invented demo catalog and of the shipped one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from folders import DEMO, SHIPPED
from handout_site import handout_site
from made_once import made_once, shared_base
from site_building import build, configuration, render
from site_serving import serve

from build_tools.catalog.load import Catalog, load
from build_tools.site import book

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page


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
    """The demo catalog's site, built strictly. Every process reads it and none writes to it, as with the next."""
    return made_once(
        shared_base(tmp_path_factory),
        "demo-site",
        lambda folder: build(configuration(folder, DEMO), strict=True),
    )


@pytest.fixture(scope="session")
def demo_address(demo_site: Path) -> Iterator[str]:
    """Its site on a local port."""
    with serve(demo_site) as address:
        yield address


@pytest.fixture
def context(browser: Browser, demo_address: str) -> Iterator[BrowserContext]:
    """A plain window on it. A file that looks at another site, or otherwise, has its own."""
    with browser.new_context(base_url=demo_address) as made:
        yield made


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """An empty page in the window of the test's file."""
    return context.new_page()


@pytest.fixture(scope="session")
def shipped_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shipped catalog's site."""
    return made_once(
        shared_base(tmp_path_factory),
        "shipped-site",
        lambda folder: build(configuration(folder, SHIPPED)),
    )


@pytest.fixture(scope="session")
def shipped_address(shipped_site: Path) -> Iterator[str]:
    """Its site on a local port."""
    with serve(shipped_site) as address:
        yield address


@pytest.fixture(scope="session")
def moved_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo catalog's folder with retired ids of every kind."""
    folder = Path(shutil.copytree(DEMO, tmp_path_factory.mktemp("moved") / "catalog"))
    (folder / "moved.yaml").write_text(
        "exercises: {lamp-curl: crate-curl}\nmuscles: {lamp: lantern}\nparts: {lantern/wick: lantern/long-head}\n"
        "sources: {wick2029: wick2030}\n"
        "retired:\n"
        "  exercises:\n"
        "    pit-curl: {name: Pit curl, day: 2026-01-05, because: The pit was filled., parts: [lantern/long-head]}\n"
        "  muscles: {tinder: {name: Tinder muscle, day: 2026-01-05, because: It was none.}}\n"
        "  parts: {lantern/glass: {name: Glass, day: 2026-01-05, because: It was none.}}\n"
        "  sources: {soot2020: {name: Soot 2020, day: 2026-01-05, because: It was withdrawn.}}\n",
        encoding="utf-8",
    )
    return folder


@pytest.fixture(scope="session")
def handout_address(moved_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The handout page of that folder on a local port, with the pages it leads to."""
    with handout_site(tmp_path_factory.mktemp("handout"), load(moved_folder)) as address:
        yield address


@pytest.fixture
def moved(moved_folder: Path) -> Catalog:
    """The demo catalog with retired ids."""
    return load(moved_folder, "catalog")


@pytest.fixture
def moved_book(moved: Catalog) -> book.Book:
    """Its book."""
    return render(moved)


@pytest.fixture(scope="session")
def moved_address(moved_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Its site on a local port."""
    site = made_once(
        shared_base(tmp_path_factory),
        "moved-site",
        lambda folder: build(configuration(folder, moved_folder)),
    )
    with serve(site) as address:
        yield address
