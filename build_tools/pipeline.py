"""Open a catalog, check it, and conclude from it when nothing is wrong: what every command and the plugin begin with."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from . import clock
from .catalog import load as loading
from .catalog.load import Catalog
from .checks import exceptions, runner
from .checks.manuals.numbers import NUMBERS
from .checks.profile import Profile, load_profile, severity_of
from .checks.rule import all_rules
from .checks.runner import GradedFinding
from .movement.length.length import MeanLengths

if TYPE_CHECKING:
    from .evidence.claims.conclusions import Conclusions
    from .evidence.claims.memory import ConclusionMemory


@dataclass
class Memory:
    """What a preview knows of the state before, so that it does anew only what a change bears on. Of one folder."""

    files: loading.FileMemory = field(default_factory=loading.FileMemory)
    weighed: ConclusionMemory | None = None
    lengths: MeanLengths | None = None
    """What the model said of the exercises."""


class Opened(NamedTuple):
    """A catalog, and what it is judged by."""

    catalog: Catalog
    today: date
    profile: Profile


class Checked(NamedTuple):
    """What the rules and the numbers find, in the order of the files, and what the catalog says."""

    catalog: Catalog
    profile: Profile
    by_rules: list[GradedFinding]
    by_numbers: list[GradedFinding]
    conclusions: Conclusions | None
    """``None`` when the rules find errors: nothing is computed from an unsound catalog."""

    @property
    def reported(self) -> list[GradedFinding]:
        """All findings."""
        return sorted(self.by_rules + self.by_numbers, key=lambda reported: reported.place)

    @property
    def errors(self) -> list[GradedFinding]:
        """Those that stop a build."""
        return [reported for reported in self.reported if reported.severity == "error"]


def open_catalog(folder: Path, label: str | None = None, memory: Memory | None = None) -> Opened:
    """Read the catalog in ``folder``, the day it is judged by and the severities; findings call it ``label`` (default: the path as given).

    With a ``memory`` of the folder only what changed is read.
    Raises ``ValueError`` for a day that is none, ``OSError`` for files that cannot be read.
    """
    return Opened(
        loading.load(folder, label, memory.files if memory else None), clock.today(), load_profile()
    )


def run(opened: Opened, memory: Memory | None = None) -> Checked:
    """Check the catalog and, if it is sound, conclude from it with the model's lengths."""
    catalog, today, profile = opened
    by_rules = runner.run(catalog, today, profile)
    if any(reported.severity == "error" for reported in by_rules):
        return Checked(catalog, profile, by_rules, [], None)
    # Slow to import, and `handbook check` needs none of it.
    from .evidence.claims import conclude as concluding
    from .evidence.claims import memory as remembering

    memory = memory or Memory()
    memory.weighed = memory.weighed or remembering.ConclusionMemory()
    memory.lengths = MeanLengths(catalog, memory.lengths)
    conclusions = concluding.conclude(catalog, memory.lengths, memory.weighed)
    found = exceptions.let_through(
        conclusions.findings, catalog, NUMBERS, complete=True, elsewhere=all_rules()
    )
    judged = {GradedFinding(finding, severity_of(finding.rule, profile)) for finding in found}
    return Checked(
        catalog, profile, by_rules, sorted(judged, key=lambda reported: reported.place), conclusions
    )
