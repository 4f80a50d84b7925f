"""How severe each rule is. The profile is data (``severities.yaml``), so a change of policy touches no rule."""

from __future__ import annotations

from pathlib import Path
from typing import Literal, get_args

import yaml

Severity = Literal["error", "warning", "notice"]
Profile = dict[str, Severity]

#: The handbook's own profile.
DEFAULT = Path(__file__).with_name("severities.yaml")


def load_profile(path: Path = DEFAULT) -> Profile:
    """Rule id -> severity. Raises ``ValueError`` for any other word."""
    profile: Profile = yaml.load(path.read_text(encoding="utf-8"), yaml.CSafeLoader)
    for rule, severity in profile.items():
        if severity not in get_args(Severity):
            raise ValueError(
                f"{path.name}: `{rule}` cannot be `{severity}`; write one of: {', '.join(get_args(Severity))}"
            )
    return profile


def severity_of(rule: str, profile: Profile) -> Severity:
    """A rule that the profile does not name yet counts as an error."""
    return profile.get(rule, "error")
