"""The committed list of addresses: what it holds, and what it never loses."""

from __future__ import annotations

import importlib
import re
from pathlib import Path

import pytest
from folders import DEMO

from build_tools import clock
from build_tools.catalog.finding import Finding
from build_tools.catalog.load import Catalog, load
from build_tools.checks.rule import Context
from build_tools.committed import addresses as address_list
from build_tools.committed.addresses import FILE, HEADER
from build_tools.site.book import answering


def stale(catalog: Catalog) -> list[Finding]:
    return address_list.stale(catalog, answering(catalog))


def add(catalog: Catalog) -> tuple[list[Finding], address_list.AddressesWritten]:
    return address_list.add(catalog, answering(catalog))


def found(root: Path) -> list[tuple[str, int, str]]:
    return [
        (finding.rule, finding.spot.line, finding.message) for finding in stale(load(root, "demo"))
    ]


def lines(root: Path) -> list[str]:
    return (root / FILE).read_text(encoding="utf-8").splitlines()


def retire(root: Path) -> None:
    """Rename the crate curl, and everything that mentions it, to box curl."""
    (root / "exercises" / "crate-curl.yaml").rename(root / "exercises" / "box-curl.yaml")
    for path in [
        *root.glob("exercises/*.yaml"),
        *root.glob("studies/*.yaml"),
        *root.glob("*.yaml"),
    ]:
        path.write_text(
            path.read_text(encoding="utf-8").replace("crate-curl", "box-curl"), encoding="utf-8"
        )


def test_the_demo_is_listed() -> None:
    """After a wanted change run ``handbook addresses --catalog tests/demo/catalog``."""
    assert found(DEMO) == []


def test_a_new_entry_is_added_and_nothing_is_lost(demo: Path) -> None:
    kept = lines(demo)
    (demo / FILE).write_text("\n".join(kept[:3] + kept[4:]) + "\n", encoding="utf-8")
    assert found(demo) == [("address-list", 1, f"1 address is not listed yet: `{kept[3]}`")]
    assert add(load(demo)) == ([], (1, len(kept) - 1))
    assert lines(demo) == kept


def test_an_address_that_would_die_is_named_with_its_remedy(demo: Path) -> None:
    kept = lines(demo)
    retire(demo)
    dead = [finding for finding in stale(load(demo, "demo")) if finding.rule == "dead-address"]
    assert [(f.spot.line, f.message) for f in dead] == [
        (kept.index(address) + 1, f"`{address}` was published and would no longer answer")
        for address in ("/cues/crate-curl/", "/exercises/crate-curl/")
    ]
    assert len({f.help for f in dead}) == 1
    renamed, retired = re.findall(r"`(\w+: \{.*?\}+)`", dead[0].help)
    assert renamed == "exercises: {crate-curl: its-new-id}" and "in demo/moved.yaml" in dead[0].help
    # The command adds the new one, says the same, and still takes nothing out.
    assert [f.rule for f in add(load(demo))[0]] == ["dead-address", "dead-address"]
    assert set(kept) < set(lines(demo))
    # Each of the two works as it is told, in a file that was not there.
    for written in (renamed.replace("its-new-id", "box-curl"), retired):
        (demo / "moved.yaml").write_text(f"{written}\n", encoding="utf-8")
        catalog = load(demo)
        assert catalog.findings == [] and found(demo) == []
        rule = importlib.import_module("build_tools.checks.rules.retired_id")
        assert list(rule.check(Context(catalog, clock.today()))) == []


def test_a_successor_that_does_not_exist_is_none(demo: Path) -> None:
    retire(demo)
    (demo / "moved.yaml").write_text("exercises: {crate-curl: bax-curl}\n", encoding="utf-8")
    assert [rule for rule, _, _ in found(demo)].count("dead-address") == 2


def test_a_page_of_the_handbook_itself_cannot_die(demo: Path) -> None:
    (demo / FILE).write_text(
        HEADER + "\n".join(sorted([*lines(demo)[1:], "/glossary/"])) + "\n", encoding="utf-8"
    )
    [finding] = stale(load(demo))
    assert (
        finding.rule == "dead-address"
        and finding.help == "bring the page back, or leave a page there that leads on"
    )


@pytest.mark.parametrize(
    "line",
    [
        "<<<<<<< HEAD",
        "exercises/crate-curl/",
        "/exercises/crate-curl",
        "/Exercises/",
        "//",
        "/a b/",
        "/../",
    ],
)
def test_a_damaged_line_stops_the_command(demo: Path, line: str) -> None:
    before = HEADER + "/\n" + line + "\n"
    (demo / FILE).write_text(before, encoding="utf-8")
    assert ("address-list", 3, "this line is no address") in found(demo)
    assert [f.spot.line for f in add(load(demo))[0]] == [3]
    assert (demo / FILE).read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    "change", [lambda kept: [*kept, kept[-1]], lambda kept: [kept[0], *reversed(kept[1:])]]
)
def test_order_and_repeats_are_mended(demo: Path, change: object) -> None:
    kept = lines(demo)
    (demo / FILE).write_text("\n".join(change(kept)) + "\n", encoding="utf-8")
    assert found(demo) == [("address-list", 1, "the lines are not in order, or one stands twice")]
    add(load(demo))
    assert lines(demo) == kept


def test_line_breaks_of_another_system_change_nothing(demo: Path) -> None:
    (demo / FILE).write_bytes((demo / FILE).read_bytes().replace(b"\n", b"\r\n"))
    assert found(demo) == []


def test_a_link_is_not_written_through(demo: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere.txt"
    elsewhere.write_text(HEADER, encoding="utf-8")
    (demo / FILE).unlink()
    (demo / FILE).symlink_to(elsewhere)
    with pytest.raises(OSError, match="is a link"):
        add(load(demo))
    assert elsewhere.read_text(encoding="utf-8") == HEADER
