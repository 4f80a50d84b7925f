"""A terminal's text: counts first, cut at a length that a person reads, and no line is a command to anything."""

from __future__ import annotations

import json
from pathlib import Path

from build_tools.revisions.difference import CatalogDifference
from build_tools.revisions.entries import EntryChange
from build_tools.revisions.reports import render
from build_tools.revisions.snapshot import NOW, Snapshot


def many(folder: Path) -> CatalogDifference:
    found = CatalogDifference(Snapshot(folder, "main (1 of 2030-01-01)"), Snapshot(folder, NOW))
    found.entries = [EntryChange("exercises", "added", f"curl-{n}", f"Curl {n}") for n in range(99)]
    return found


def test_the_rest_is_counted_and_said_where_it_stands(tmp_path: Path) -> None:
    lines = render(many(tmp_path), "text").splitlines()
    assert lines[0] == "The catalog now against main (1 of 2030-01-01)"
    assert "  Exercises: 99 added" in lines and "  and 94 more" in lines
    assert lines[-1] == "All of it: --format json" and len(lines) < 24
    assert len(json.loads(render(many(tmp_path), "json"))["entries"]) == 99


def test_colours_only_where_a_terminal_shows_them(tmp_path: Path) -> None:
    assert "\x1b" not in render(many(tmp_path), "text")
    coloured = render(many(tmp_path), "text", colour=True)
    assert coloured.startswith("\x1b[1m") and "\x1b" not in render(many(tmp_path), "json", True)


def test_control_characters_of_a_name_do_not_reach_the_terminal(tmp_path: Path) -> None:
    found = many(tmp_path)
    found.entries[:] = [EntryChange("exercises", "added", "x", "a\x1b[2Jb\n::error::c")]
    shown = render(found, "text")
    assert "\x1b" not in shown and "a\\x1b[2Jb\\n::error::c" in shown
