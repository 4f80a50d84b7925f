"""What the benchmark measures is a sound catalog, the same one every time."""

from __future__ import annotations

from pathlib import Path

import pytest
from bench import check, timing
from bench.generate import generate

DEMO = Path(__file__).parent / "demo" / "catalog"


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_the_same_size_gives_the_same_bytes(tmp_path: Path) -> None:
    first, second = (contents(generate(DEMO, tmp_path / name, 60)) for name in ("first", "second"))
    assert first == second
    assert sum("/" in name for name in first) in range(60, 70)


def test_a_generated_catalog_is_as_clean_as_the_demo(tmp_path: Path) -> None:
    # Findings would make the check work on messages instead of on entries.
    rules = {reported.finding.rule for reported in check.check(DEMO)}
    generated = check.check(generate(DEMO, tmp_path / "catalog", 300))
    assert {reported.finding.rule for reported in generated} <= rules


def test_a_command_that_fails_is_not_timed() -> None:
    with pytest.raises(SystemExit, match="ended with 3:\nno such catalog"):
        timing.of_commands(1, ["-c", "import sys; print('no such catalog'); sys.exit(3)"])
