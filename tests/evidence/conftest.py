"""Catalogs for the tests of the evidence engine: the invented demo, which a test may change in memory, and the shipped one."""

import pytest
import shipped_made
from folders import DEMO

from build_tools.catalog.load import Catalog, load
from build_tools.evidence.claims.conclusions import Conclusions


@pytest.fixture
def demo() -> Catalog:
    """The invented catalog, fresh for each test."""
    return load(DEMO)


@pytest.fixture
def shipped() -> Catalog:
    """The handbook's own catalog, not to be changed."""
    return shipped_made.catalog()


@pytest.fixture
def concluded() -> Conclusions:
    """What it concludes, made once in a process."""
    return shipped_made.conclusions()
