"""Every outside check value is checked by some test, or left out for a stated reason."""

import importlib.util
from pathlib import Path

from statistics_reference import PATH, entries

#: Entry id -> why no test checks it.
LEFT_OUT = {
    "grade_inconsistency": "Its bands are of I², which is not asked: the spread to expect is weighed by itself, and few studies have no I².",
    "grade_nma_unit": "A body of evidence is one comparison, so the unit is the shape of the input, not a value.",
    "grade_nma_global_test": "The rating has no place for a test of the whole network, only for one comparison's.",
    "grade_nma_start_indirect": "From memory and not followed: an indirect comparison costs one level instead, as the rules say.",
    "grade_nma_conclusions": "It concerns the order of exercises on a page, and was seen only by its title.",
}


def covered(monkeypatch) -> set[str]:
    """The entry ids that test modules say in ``COVERS`` they check."""
    ids = set()
    for path in sorted(Path(__file__).parents[1].rglob("test_*.py")):
        if "COVERS" in path.read_text(encoding="utf-8") and path != Path(__file__):
            monkeypatch.syspath_prepend(path.parent)  # helpers beside it
            spec = importlib.util.spec_from_file_location(f"coverage_of_{path.stem}", path)
            module = importlib.util.module_from_spec(spec)
            spec.loader.exec_module(module)
            ids |= set(module.COVERS)
    return ids


def test_every_check_value_is_checked_or_left_out_for_a_reason(monkeypatch):
    known, checked = set(entries()), covered(monkeypatch)
    assert checked - known == set(), "not entries of statistics.yaml"
    assert set(LEFT_OUT) - known == set(), "not entries of statistics.yaml"
    assert checked & set(LEFT_OUT) == set(), "checked, so no longer left out"
    assert known - checked - set(LEFT_OUT) == set(), "neither in a COVERS nor in LEFT_OUT"


def test_entries_have_ids_of_their_own():
    lines = [
        line for line in PATH.read_text(encoding="utf-8").splitlines() if line.startswith("- id: ")
    ]
    assert len(lines) == len(set(lines)) == len(entries())
