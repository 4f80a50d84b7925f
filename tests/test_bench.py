"""What the benchmark measures is a sound catalog, the same one every time."""

from __future__ import annotations

from pathlib import Path

import pytest
from bench import check, coverage, scale, studies, timing
from bench.generate import generate

from build_tools.catalog.load import load
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.explain.claim import by_id, explain
from build_tools.evidence.settings import settings

DEMO = Path(__file__).parent / "demo" / "catalog"


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_the_same_size_gives_the_same_bytes(tmp_path: Path) -> None:
    first, second = (contents(generate(DEMO, tmp_path / name, 60)) for name in ("first", "second"))
    assert first == second
    assert sum("/" in name for name in first) in range(60, 70)


def test_a_generated_catalog_is_as_clean_as_the_demo(tmp_path: Path) -> None:
    # Findings would make the check work on messages instead of on entries.
    rules = {reported.finding.rule for reported in check.check(DEMO)}
    generated = check.check(generate(DEMO, tmp_path / "catalog", 300))
    assert {reported.finding.rule for reported in generated} <= rules


def test_generated_studies_connect_every_exercise(tmp_path: Path) -> None:
    # Findings of the rules would mean that something else is weighed than a catalog could hold.
    catalog = studies.generate(DEMO, tmp_path / "catalog", 24, 48)
    assert not load(catalog).findings
    assert contents(catalog) == contents(studies.generate(DEMO, tmp_path / "again", 24, 48))
    loaded = load(catalog)
    conclusions = conclude(loaded)
    for field in conclusions.fields.values():
        [component] = field.components
        assert len(component.order) == 24 and component.samples == 48
        assert len(field.comparisons) == 24 * 23 // 2 and {c.path for c in field.comparisons} >= {
            "indirect",
            "direct and indirect",
        }
    # Every pair's chain can be told, also through other exercises.
    engine = Engine(loaded, settings(loaded))
    for id in by_id(conclusions):
        assert id in explain(loaded, conclusions, id, engine)


def test_coverage_is_measured_the_same_way_every_time() -> None:
    """A few runs: seeded, and where studies do not differ nearly every interval holds the truth."""
    growth = coverage.KINDS[0]
    one, two = (coverage.simulate(growth, 2, 0.0, mix, 20) for mix in coverage.MIXES[:2])
    assert one == coverage.simulate(growth, 2, 0.0, coverage.MIXES[0], 20)
    assert min(one.coverage, two.coverage) >= 0.9 and 0 < one.width < 0.3
    alone, both = coverage.selected(growth, 0.03, 20)
    assert abs(both.bias) < abs(alone.bias)


def test_what_a_command_used_is_its_own() -> None:
    """A process that holds 300 MB has used that much, and a small one does not inherit it; both as the kernel counts."""
    held = bytearray(300_000_000)
    small, large = (timing.used(["-c", f"x = bytearray({size})"]) for size in (1, 300_000_000))
    assert len(held) == 300_000_000 and small.seconds < 2
    if small.megabytes and large.megabytes:
        assert small.megabytes < 100 and 300 < large.megabytes < 400


def test_growth_is_the_power_of_the_size() -> None:
    """Twice the entries: twice the time is linear (1), four times is quadratic (2)."""
    assert [scale.growth((100, 200), times) for times in ((3, 6), (3, 12), (0, 1))] == [1, 2, None]


def test_a_command_that_fails_is_not_timed() -> None:
    with pytest.raises(SystemExit, match="ended with 3:\nno such catalog"):
        timing.of_commands(1, ["-c", "import sys; print('no such catalog'); sys.exit(3)"])
