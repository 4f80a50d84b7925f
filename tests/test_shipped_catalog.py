"""The catalog we publish has nothing to mend, warnings included, and its conclusions are committed."""

from pathlib import Path

from build_tools.catalog.load import load
from build_tools.checks import reports
from build_tools.checks.profile import load_profile
from build_tools.evidence import committed
from build_tools.evidence.weighed import weigh
from build_tools.movement.length import means

CATALOG = Path(__file__).parents[1] / "catalog"


def test_nothing_to_mend_under_strict():
    catalog = load(CATALOG, "catalog")
    # Judged on the day of the newest review: a test must not begin to fail because time passes.
    # `make check` judges by the present day.
    newest = max(entry.data.reviewed for folder in (catalog.muscles, catalog.exercises) for entry in folder.values())
    weighed = weigh(catalog, newest, load_profile(), means(catalog))
    assert not weighed.reported, "\n" + reports.render(reports.Report(weighed.reported), "text")
    assert weighed.conclusions is not None
    # What a pull request shows is what the numbers give. After a wanted change: handbook conclude
    assert committed.stale(committed.files(weighed.conclusions, catalog), catalog) == []
