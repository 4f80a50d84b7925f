"""Accessibility judged by axe-core (Deque), an outside checker of WCAG 2.2; it finds about half of what can be wrong."""

from __future__ import annotations

import os
from functools import cache
from importlib import resources, util
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Page


@cache
def script() -> str:
    """The checker. Missing: skipped, but a failure under CI."""
    if util.find_spec("axe_playwright_python") is None:
        (pytest.fail if "CI" in os.environ else pytest.skip)(
            "axe-core is missing; install axe-playwright-python"
        )
    return (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")


def violations(page: Page, **options: Any) -> list[list[Any]]:
    """Each rule that the page breaks as it stands, and where; ``options`` are those of ``axe.run``.

    Of what is in order only one place a rule is gathered, which is the greater part of the time.
    """
    page.evaluate(script())
    return page.evaluate(
        "options => axe.run(options).then(r => r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 160))]))",
        {"resultTypes": ["violations"], **options},
    )
