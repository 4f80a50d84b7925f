"""The rules are pure: what they decide, they decide from what they are given, so that an engine without a page can run them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from script_rules import RULES

SCRIPTS = sorted(RULES.parent.rglob("*.js"))
#: What only a page has.
PAGE = (
    r"\b(document|window|location|history|navigator|localStorage|sessionStorage|fetch|setTimeout|crypto)\b[.(\[]"
    r"|\bnew Date\(\)|\bMath\.random\b"
)


#: What only the tests ask for: it is held against published values by itself.
ALONE = {("loads", name) for name in ("guesses", "totalLoad", "neighbours")}


def imports(path: Path) -> list[Path]:
    found = re.findall(r'^import .+ from "(.+)";$', path.read_text(encoding="utf-8"), re.MULTILINE)
    return [(path.parent / one).resolve() for one in found]


@pytest.mark.parametrize("path", sorted(RULES.glob("*.js")), ids=lambda path: path.name)
def test_a_rule_knows_nothing_of_a_page(path: Path) -> None:
    assert {other.parent for other in imports(path)} <= {RULES}
    code = re.sub(r"//.*|/\*.*?\*/", "", path.read_text(encoding="utf-8"))
    assert not re.search(PAGE, code)


def test_every_import_is_there_and_nothing_is_exported_for_nobody() -> None:
    used = {
        (target.stem, name)
        for path in SCRIPTS
        for names, at in re.findall(
            r'^import \{ (.+?) \} from "(.+)";$', path.read_text(encoding="utf-8"), re.MULTILINE
        )
        for target in [(path.parent / at).resolve()]
        for name in names.split(", ")
        if target.parent == RULES
    }
    for path in SCRIPTS:
        assert all(other.exists() for other in imports(path)), path.name
    for path in RULES.glob("*.js"):
        made = re.findall(
            r"^export (?:const|function|class) (\w+)",
            path.read_text(encoding="utf-8"),
            re.MULTILINE,
        )
        assert not [name for name in made if (path.stem, name) not in used | ALONE], path.name
