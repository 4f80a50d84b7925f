"""The folders that tests read, from wherever a test stands."""

from pathlib import Path

ROOT = Path(__file__).parents[1]
SHIPPED = ROOT / "catalog"
DEMO = ROOT / "tests" / "demo" / "catalog"
