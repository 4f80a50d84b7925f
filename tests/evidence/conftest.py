"""A loaded demo catalog that a test may change in memory."""

from pathlib import Path

import pytest

from build_tools.catalog.load import Catalog, load

DEMO = Path(__file__).parents[1] / "demo" / "catalog"


@pytest.fixture
def demo() -> Catalog:
    """The invented catalog, fresh for each test."""
    return load(DEMO)
