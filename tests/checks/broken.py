"""One small broken copy of the demo catalog, on which every report format is shown."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from build_tools.catalog.counts import counts
from build_tools.catalog.load import load
from build_tools.checks.profile import Profile
from build_tools.checks.reports import Report
from build_tools.checks.rule import all_rules
from build_tools.checks.runner import run

#: Two rules are enough to show a format, and new rules then leave the golden files alone.
PROFILE: Profile = {"known-exercise": "error", "statement-basis": "warning"}


def break_demo(folder: Path) -> None:
    """An unknown swap, a cue without a basis, a misspelt key, and text that tries to steer a terminal and a log."""
    curl = folder / "exercises" / "cable-curl.yaml"
    text = curl.read_text(encoding="utf-8")
    text = text.replace("swaps: [crate-curl]", "swaps: [crate-crul]").replace(
        "      common_practice: Plain picture of the path.\n", ""
    )
    curl.write_text(text, encoding="utf-8")
    lantern = folder / "muscles" / "lantern.yaml"
    text = lantern.read_text(encoding="utf-8")
    lantern.write_text(
        text.replace("everyday: back of the lamp", "everday: back of the lamp"), encoding="utf-8"
    )
    study = folder / "studies" / "glow2031.yaml"
    text = study.read_text(encoding="utf-8")
    study.write_text(
        text.replace("design: within-participant", r'design: "\e[2J100 %\r\n::error::,:|<b>"'),
        encoding="utf-8",
    )


def report(folder: Path, **settings: object) -> Report:
    """What is reported on the broken copy in ``folder``."""
    catalog = load(folder, "catalog")
    rules = {rule: module for rule, module in all_rules().items() if rule in PROFILE}
    return Report(run(catalog, date(2026, 12, 1), PROFILE, rules), 9, counts(catalog), **settings)
