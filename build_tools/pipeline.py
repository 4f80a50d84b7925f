"""The rules first, then the numbers: everything wrong with a catalog, and what it says when nothing is."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from .catalog.load import Catalog
from .checks import exceptions, runner
from .checks.manuals.numbers import NUMBERS
from .checks.profile import Profile, severity_of
from .checks.rule import all_rules
from .checks.runner import Reported
from .evidence.conclude import conclude
from .evidence.lengths import Lengths
from .evidence.model import Conclusions


class Weighed(NamedTuple):
    """What the rules and the numbers find, in the order of the files."""

    by_rules: list[Reported]
    by_numbers: list[Reported]
    conclusions: Conclusions | None
    """``None`` when the rules find errors: nothing is computed from an unsound catalog."""

    @property
    def reported(self) -> list[Reported]:
        """All findings."""
        return sorted(self.by_rules + self.by_numbers, key=lambda reported: reported.place)


def weigh(catalog: Catalog, today: date, profile: Profile, lengths: Lengths | None = None) -> Weighed:
    """Check ``catalog`` on the day ``today`` and, if it is sound, conclude from it; ``lengths`` as in ``conclude``."""
    by_rules = runner.run(catalog, today, profile)
    if any(reported.severity == "error" for reported in by_rules):
        return Weighed(by_rules, [], None)
    conclusions = conclude(catalog, lengths)
    found = exceptions.let_through(conclusions.findings, catalog, NUMBERS, complete=True, elsewhere=all_rules())
    judged = {Reported(finding, severity_of(finding.rule, profile)) for finding in found}
    return Weighed(by_rules, sorted(judged, key=lambda reported: reported.place), conclusions)
