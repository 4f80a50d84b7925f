"""The runner: order, severities, exceptions, and rules that fail. The rules themselves are tested beside their manuals."""

import ast
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest

from build_tools import catalog as catalog_package
from build_tools.catalog.finding import Spot
from build_tools.catalog.load import load
from build_tools.checks.manuals.register import LOADER, manuals
from build_tools.checks.profile import load_profile
from build_tools.checks.rule import Problem
from build_tools.checks.runner import run

TODAY = date(2026, 12, 1)


def rule(*spots, file="catalog/exercises/crate-curl.yaml", fails=None):
    """A rule module that finds something at each (line, column), then perhaps fails."""

    def check(context):
        for line, column in spots:
            yield Problem(Spot(file, line, column), "wrong", "mend it")
        if fails:
            raise fails

    return SimpleNamespace(check=check)


def places(reported):
    return [(r.finding.rule, *r.finding.spot) for r in reported]


def checked(folder, rules, profile=None):
    return run(load(folder, "catalog"), TODAY, profile or {}, rules)


def except_from(folder, *lines):
    (folder / "exceptions.yaml").write_text(
        "exceptions:\n" + "".join(f"  - {line}\n" for line in lines), encoding="utf-8"
    )


def test_every_id_has_a_severity_and_every_severity_an_id():
    assert set(load_profile()) == set(manuals())


def test_every_id_that_the_loader_writes_has_a_manual():
    """Ids are written out where the loader finds something: the first argument of these calls."""
    found = set()
    for path in Path(catalog_package.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "").lstrip("_").lower() in (
                "finding",
                "refused",
                "refuse",
            ):
                if node.args and isinstance(node.args[0], ast.Constant):
                    found.add(node.args[0].value)
    assert len(found) > 10 and found <= set(LOADER)


STUDY = (Path(__file__).parents[1] / "demo/catalog/studies/wick2030.yaml").read_text(
    encoding="utf-8"
)
#: Id -> a file of the demo catalog and what it holds instead (a function changes its text).
REFUSED = {
    "bad-key": ("references.bib", lambda text: text.replace("{glow2031,", "{Glow-2031,")),
    "bibtex-syntax": (
        "references.bib",
        lambda text: text.replace("year = {2031},", "year = {2031,"),
    ),
    "duplicate-key": ("handbook.yaml", lambda text: text + "title: Once more\n"),
    "file-encoding": ("handbook.yaml", b"title: \xff\n"),
    "file-name": ("exercises/Crate Curl.yaml", b"name: Crate curl\n"),
    "file-size": ("handbook.yaml", b"# long\n" * 50_000),
    "file-unreadable": ("moved.yaml", None),
    "length-table": ("model/lamp.csv", lambda text: text.replace("-20,20,", "-20,25,")),
    "merge-conflict": (
        "handbook.yaml",
        lambda text: text.replace("licence:", "<<<<<<< HEAD\nlicence:"),
    ),
    "misplaced-file": ("exercises/wick2031.yaml", lambda text: STUDY),
    "missing-file": ("handbook.yaml", ...),
    "missing-key": (
        "handbook.yaml",
        lambda text: text.replace("title: Lantern Yard handbook\n", ""),
    ),
    "stray-file": ("handbok.yaml", b"title: Handbook\n"),
    "unknown-key": ("handbook.yaml", lambda text: text + "titel: Handbook\n"),
    "wrong-type": ("handbook.yaml", lambda text: text.replace("licence: CC0-1.0", "licence: 1")),
    "wrong-value": (
        "handbook.yaml",
        lambda text: text.replace("licence: CC0-1.0", "licence: '*CC0*'"),
    ),
    "yaml-alias": (
        "handbook.yaml",
        lambda text: text.replace("licence: CC0-1.0", "licence: &a CC0-1.0"),
    ),
    "yaml-depth": ("handbook.yaml", b"title: " + b"[" * 400 + b"]" * 400),
    "yaml-key": ("handbook.yaml", b"[a, b]: c\n"),
    "yaml-syntax": ("handbook.yaml", b"title: [\n"),
    "yaml-tag": (
        "handbook.yaml",
        lambda text: text.replace("licence: CC0-1.0", "licence: !!str CC0-1.0"),
    ),
}


@pytest.mark.parametrize("id", LOADER)
def test_every_id_of_the_loader_is_found(demo, id):
    name, change = REFUSED[id]
    path = demo / name
    if change is None:
        path.mkdir()
    elif change is ...:
        path.unlink()
    else:
        text = path.read_text(encoding="utf-8") if path.exists() else ""
        path.write_bytes(change if isinstance(change, bytes) else change(text).encode())
    found = checked(demo, {}, load_profile())
    assert {r.finding.rule for r in found} == {id}
    assert {r.finding.spot.file for r in found} == {f"catalog/{name}"} and {
        r.severity for r in found
    } == {"error"}


def test_a_profile_names_only_known_severities(tmp_path):
    (tmp_path / "profile.yaml").write_text("a-rule: fatal\n", encoding="utf-8")
    with pytest.raises(
        ValueError, match="`a-rule` cannot be `fatal`; write one of: error, warning, notice"
    ):
        load_profile(tmp_path / "profile.yaml")


def test_sorted_by_file_line_column_and_rule(demo):
    found = checked(
        demo,
        {
            "b-rule": rule((9, 1), (10, 2)),
            "a-rule": rule((10, 1), (10, 2)),
            "c-rule": rule((1, 1), file="catalog/exercises/cable-curl.yaml"),
        },
    )
    crate = "catalog/exercises/crate-curl.yaml"
    assert places(found) == [
        ("c-rule", "catalog/exercises/cable-curl.yaml", 1, 1),
        ("b-rule", crate, 9, 1),
        ("a-rule", crate, 10, 1),
        ("a-rule", crate, 10, 2),
        ("b-rule", crate, 10, 2),
    ]


def test_the_profile_decides_the_severity_and_a_new_rule_is_an_error(demo):
    found = checked(
        demo, {"old-rule": rule((1, 1)), "new-rule": rule((1, 1))}, {"old-rule": "warning"}
    )
    assert {r.finding.rule: r.severity for r in found} == {
        "old-rule": "warning",
        "new-rule": "error",
    }


@pytest.mark.parametrize(
    "name, moved_to",
    [
        ("exercises/Crate-Curl.yaml", None),
        ("exercises/crate_curl.yaml", None),
        ("exercises/crate curl.yaml", None),
        ("crate-curl.yaml", "exercises/crate-curl.yaml"),
        ("studies/crate-curl.yaml", "exercises/crate-curl.yaml"),
        ("muscles/crate-curl.yaml", "exercises/crate-curl.yaml"),
    ],
)
def test_a_file_that_is_not_where_it_belongs_is_all_that_is_told(demo, name, moved_to):
    """Every mention of the exercise fails too, and says nothing new."""
    (demo / "exercises/crate-curl.yaml").rename(demo / name)
    (only,) = checked(demo, None, load_profile())
    assert only.finding.spot == Spot(f"catalog/{name}", 1, 1)
    assert only.finding.rule == ("misplaced-file" if moved_to else "file-name")
    assert not moved_to or only.finding.help == f"move it to {moved_to}"


def test_a_file_that_is_not_where_it_belongs_is_told_first(demo):
    (demo / "zzz.yaml").write_text("title: x\n", encoding="utf-8")
    (demo / "exercises/Lamp.yaml").write_text("name: Lamp\n", encoding="utf-8")
    found = checked(demo, {"a-rule": rule((1, 1), file="catalog/exercises/cable-curl.yaml")})
    assert [r.finding.rule for r in found] == ["file-name", "stray-file", "a-rule"]


def test_what_the_loader_found_is_reported_with_the_rest(demo):
    (demo / "exercises" / "crate-curl.yaml").write_text("nam: Crate curl\n", encoding="utf-8")
    found = checked(demo, {"a-rule": rule((1, 1), file="catalog/muscles/lantern.yaml")})
    assert ("unknown-key", "catalog/exercises/crate-curl.yaml", 1, 1) in places(found)
    assert ("a-rule", "catalog/muscles/lantern.yaml", 1, 1) in places(found)


def test_the_same_finding_twice_is_told_once(demo):
    assert len(checked(demo, {"a-rule": rule((1, 1), (1, 1))})) == 1


def test_an_exception_lets_through_its_rule_in_its_file_only(demo):
    except_from(demo, "{rule: a-rule, file: exercises/crate-curl.yaml, because: It is known.}")
    found = checked(
        demo,
        {
            "a-rule": rule((1, 1), (2, 1)),
            "b-rule": rule((3, 1)),
            "c-rule": rule((4, 1), file="catalog/exercises/cable-curl.yaml"),
        },
    )
    assert [r.finding.rule for r in found] == ["c-rule", "b-rule"]


def test_an_exception_that_lets_nothing_through_is_an_error(demo):
    except_from(demo, "{rule: a-rule, file: exercises/cable-curl.yaml, because: It was known.}")
    found = checked(demo, {"a-rule": rule((1, 1))}, load_profile())
    assert ("needless-exception", "catalog/exceptions.yaml", 2, 5) in places(found)
    assert [r.severity for r in found if r.finding.rule == "needless-exception"] == ["error"]


def test_the_second_of_two_equal_exceptions_is_needless(demo):
    except_from(
        demo, *["{rule: a-rule, file: exercises/crate-curl.yaml, because: It is known.}"] * 2
    )
    assert places(checked(demo, {"a-rule": rule((1, 1))})) == [
        ("needless-exception", "catalog/exceptions.yaml", 3, 5)
    ]


@pytest.mark.parametrize(
    "name, help",
    [
        ("a-rul", "did you mean `a-rule`?"),
        (
            "yaml-syntax",
            "`handbook rules` lists them; what the loader refuses cannot be let through",
        ),
    ],
)
def test_an_exception_for_no_rule_is_an_error(demo, name, help):
    except_from(demo, f"{{rule: {name}, file: exercises/crate-curl.yaml, because: It is known.}}")
    first, second = checked(demo, {"a-rule": rule((1, 1))})
    assert (first.finding.rule, *first.finding.spot) == (
        "exception-rule",
        "catalog/exceptions.yaml",
        2,
        12,
    )
    assert first.finding.help == help and second.finding.rule == "a-rule"


def test_exceptions_are_not_called_needless_while_a_file_cannot_be_read(demo):
    except_from(demo, "{rule: a-rule, file: exercises/cable-curl.yaml, because: It is known.}")
    (demo / "exercises" / "cable-curl.yaml").write_text("name: [", encoding="utf-8")
    assert [r.finding.rule for r in checked(demo, {"a-rule": rule()})] == ["yaml-syntax"]


def test_a_rule_that_fails_hides_nothing_and_says_where(demo):
    except_from(demo, "{rule: c-rule, file: exercises/cable-curl.yaml, because: It is known.}")
    found = checked(
        demo,
        {"a-rule": rule((1, 1), fails=KeyError("hip")), "b-rule": rule((2, 1)), "c-rule": rule()},
        load_profile(),
    )
    internal, *others = found
    assert [r.finding.rule for r in others] == ["a-rule", "b-rule"]
    assert (internal.finding.rule, internal.severity, internal.finding.spot) == (
        "internal-error",
        "error",
        Spot("catalog", 1, 1),
    )
    assert internal.finding.message.startswith("the rule `a-rule` failed at test_runner.py:")
    assert internal.finding.message.endswith("KeyError: 'hip'")
