"""Scripts are published without comments and say the same: QuickJS, an engine of its own, reads both forms."""

from __future__ import annotations

from pathlib import Path

import pytest
import quickjs

from build_tools.site.client import scripts

FOLDER = Path(scripts.__file__).parents[1] / "scripts"
FILES = sorted(FOLDER.rglob("*.js"))


def test_comments_go_and_lines_keep_their_numbers() -> None:
    script = "// What it is.\n\n/** Two\n * lines. */\nexport const a = 1; // kept\n  // gone\nconst b = `x // y`, c = /\\/\\*/; /* d */ e();\n"
    assert scripts.bare(script) == (
        "\n\n\n\nexport const a = 1; // kept\n\nconst b = `x // y`, c = /\\/\\*/; /* d */ e();\n"
    )


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(FOLDER).as_posix())
def test_no_comment_that_goes_stands_in_a_text(path: Path) -> None:
    """In a text of several lines a line might look like a comment: there would be an odd number of its marks before it."""
    script = path.read_text(encoding="utf-8")
    lines, before = scripts.bare(script).split("\n"), script.split("\n")
    gone = [n for n, (line, left) in enumerate(zip(before, lines, strict=True)) if line != left]
    assert not any(lines[n] for n in gone)
    for n in gone:
        assert "\n".join(lines[:n]).count("`") % 2 == 0, f"line {n + 1}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(FOLDER).as_posix())
def test_an_engine_reads_what_is_published(path: Path) -> None:
    """What it imports is not there, and no page either; that is told when all of it was read."""
    try:
        quickjs.Context().module(scripts.bare(path.read_text(encoding="utf-8")))
    except quickjs.JSException as told:
        assert "SyntaxError" not in str(told), told
