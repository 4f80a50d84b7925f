"""For code-scanning services: SARIF 2.1.0 (OASIS Standard, 27 March 2020).

Section numbers below are those of the standard. Every id is described from its
manual, so a service can explain a finding without a link.
"""

from __future__ import annotations

import json
import os
import re
from importlib.metadata import version
from typing import Any
from urllib.parse import quote

from build_tools.checks.manuals.manual import Manual, ManualExample
from build_tools.checks.manuals.register import manuals
from build_tools.checks.profile import Severity, load_profile, severity_of
from build_tools.checks.runner import INTERNAL_ERROR, GradedFinding

from . import Report, visible
from .place import in_repository

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)

#: The standard's own words (3.27.10).
_LEVELS: dict[Severity, str] = {"error": "error", "warning": "warning", "notice": "note"}


def render(report: Report) -> str:
    """The report as one SARIF log with one run."""
    profile = load_profile()
    described = manuals()
    index = {rule: number for number, rule in enumerate(described)}
    explained = _explained()
    run: dict[str, Any] = {
        "tool": {
            "driver": {
                "name": "handbook",
                "version": version("evidence-handbook"),
                **({"informationUri": explained} if explained else {}),
                "rules": [
                    _rule(rule, manual, severity_of(rule, profile))
                    for rule, manual in described.items()
                ],
            }
        },
        # A category (3.17.3): a service keeps the findings of each check apart from those of another.
        "automationDetails": {"id": re.sub(r"\W+", "-", report.title.lower()) + "/"},
        "invocations": [
            {
                "executionSuccessful": not report.has_internal_error,
                # A fault of the tool is a notification (3.20.21), not a result about the catalog.
                "toolExecutionNotifications": [
                    {
                        "level": _LEVELS[item.severity],
                        "message": {"text": _message(item)},
                        "associatedRule": {"id": INTERNAL_ERROR},
                    }
                    for item in report.reported
                    if item.finding.rule == INTERNAL_ERROR
                ],
            }
        ],
        # Our columns count characters, not UTF-16 units (3.14.17).
        "columnKind": "unicodeCodePoints",
        "results": [
            _result(item, index) for item in report.reported if item.finding.rule != INTERNAL_ERROR
        ],
    }
    if report.counts:
        run["properties"] = {"counts": report.counts}
    return json.dumps({"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2) + "\n"


def _explained() -> str | None:
    """The page that explains every rule, where the handbook is published; else the repository on GitHub; else none (3.19.17)."""
    if site := os.environ.get("SITE_URL"):
        return f"{site.rstrip('/')}/rules/"
    place = [os.environ.get(name) for name in ("GITHUB_SERVER_URL", "GITHUB_REPOSITORY")]
    return "/".join(map(str, place)) if all(place) else None


def _result(item: GradedFinding, index: dict[str, int]) -> dict[str, Any]:
    finding, spot = item.finding, item.finding.spot
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "level": _LEVELS[item.severity],
        "message": {"text": _message(item)},
        "locations": [
            {
                "physicalLocation": {
                    # A relative reference (3.4.3): forward slashes, percent-encoded.
                    "artifactLocation": {
                        "uri": quote(in_repository(spot.file), errors="surrogateescape"),
                        "uriBaseId": "%SRCROOT%",
                    },
                    "region": {"startLine": spot.line, "startColumn": spot.column},
                }
            }
        ],
    }
    if finding.rule in index:
        result["ruleIndex"] = index[finding.rule]
    return result


def _message(item: GradedFinding) -> str:
    return f"{visible(item.finding.message)}\nhelp: {visible(item.finding.help)}"


def _rule(rule: str, manual: Manual, severity: Severity) -> dict[str, Any]:
    return {
        "id": rule,
        "name": "".join(word.capitalize() for word in rule.split("-")),
        "shortDescription": {"text": manual.title},
        "fullDescription": {"text": manual.why},
        "help": {"text": _plain(manual), "markdown": _markdown(manual)},
        "defaultConfiguration": {"level": _LEVELS[severity]},
    }


def _plain(manual: Manual) -> str:
    return "\n\n".join(
        [manual.instead, *(f"{label}: {e.file}\n{e.fragment}" for label, e in _examples(manual))]
    ).rstrip()


def _markdown(manual: Manual) -> str:
    return "\n\n".join(
        [
            manual.instead,
            *(
                f"{label}, `{e.file}`:\n\n```yaml\n{e.fragment}```"
                for label, e in _examples(manual)
            ),
        ]
    )


def _examples(manual: Manual) -> list[tuple[str, ManualExample]]:
    return [
        *(("Fails", example) for example in manual.fails),
        *(("Passes", example) for example in manual.passes),
    ]
