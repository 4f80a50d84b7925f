"""What two builds may differ in: names that a theme makes of its own content, and who made a page; nothing that is read."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from folders import ROOT
from lasting.pages import different, lowest


def test_every_package_that_the_site_needs_says_its_lowest_version() -> None:
    """By PEP 440 ``>=2.0`` is met by 2.0 itself."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert len(lowest(project["dependencies"])) == len(project["dependencies"])
    assert lowest(["numpy>=2.0,<3"]) == ["numpy==2.0"]
    with pytest.raises(ValueError, match="no lowest version"):
        lowest(["numpy"])


def test_only_the_theme_s_own_names_may_differ(tmp_path: Path) -> None:
    for name, theme, said in (
        ("a", b"0123abcd", b"same"),
        ("b", b"ffff0000", b"same"),
        ("c", b"0123abcd", b"other"),
    ):
        (tmp_path / name / "assets" / "stylesheets").mkdir(parents=True)
        head = (
            b'<meta name="generator" content="'
            + name.encode()
            + b'"><link href="main.'
            + theme
            + b'.min.css">'
        )
        (tmp_path / name / "index.html").write_bytes(head + said)
        (tmp_path / name / "assets" / "stylesheets" / f"main.{theme.decode()}.min.css").touch()
    assert different(tmp_path / "a", tmp_path / "b") == []
    assert different(tmp_path / "a", tmp_path / "c") == ["index.html"]
    (tmp_path / "b" / "more.html").touch()
    assert different(tmp_path / "a", tmp_path / "b") == ["more.html"]
