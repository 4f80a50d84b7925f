"""Every report format on one broken copy of the demo catalog, and against outside models of the format.

After a change that is meant: ``python tests/checks/test_reports.py`` writes the
golden files anew; read the difference before committing it.
"""

import json
import ntpath
import re
import shutil
import sys
import tempfile
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest
import sarif_om
from broken import break_demo, report
from folders import ROOT
from sarif_pydantic import Sarif

from build_tools.catalog.load import load
from build_tools.checks import reports
from build_tools.checks.manuals.register import manuals
from build_tools.checks.reports import Report, github, job_summary, render, visible
from build_tools.checks.runner import run

GOLDEN = Path(__file__).with_name("golden")
FORMATS = [*reports.FORMATS, "job_summary"]


def told(found: Report, format: str) -> str:
    """The golden text: SARIF without version and manuals, which change with releases and rules and have tests of their own."""
    text = render(found, format)
    if format != "sarif":
        return text
    log = json.loads(text)
    for varies in ("version", "rules"):
        del log["runs"][0]["tool"]["driver"][varies]
    for result in log["runs"][0]["results"]:
        del result["ruleIndex"]
    return json.dumps(log, indent=2) + "\n"


@pytest.fixture
def broken(demo):
    break_demo(demo)
    return report(demo)


@pytest.mark.parametrize("format", FORMATS)
def test_golden(broken, format):
    assert told(broken, format) == (GOLDEN / f"{format}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("format", FORMATS)
def test_nothing_to_mend(format):
    text = render(Report([], 9), format)
    assert text.endswith("\n")
    assert "no findings in 9 entries" in text or json.loads(text)


@pytest.mark.parametrize("format", FORMATS)
def test_catalog_text_cannot_steer_what_shows_it(broken, format):
    """The broken study holds an escape sequence, line breaks and a workflow command."""
    text = render(broken, format)
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f]", text)
    assert not re.search(r"(?m)^\s*::error::", text)


def test_invisible_characters_are_shown():
    assert visible("a b-é") == "a b-é"
    assert visible("\x1b[0m\u202e\n\udcff") == r"\x1b[0m\u202e\n\udcff"


def test_text_is_coloured_only_when_asked(broken, demo):
    coloured = render(report(demo, colour=True), "text")
    assert (
        "\x1b[1;31merror[known-exercise]\x1b[0m" in coloured
        and "\x1b[1;33mwarning[statement-basis]\x1b[0m" in coloured
    )
    assert re.sub(r"\x1b\[[\d;]*m", "", coloured) == render(broken, "text")


# --- GitHub's workflow commands ------------------------------------------------
# Expected lines: the toolkit's own tests, actions/toolkit packages/core/__tests__/command.test.ts,
# "command escapes message", "command escapes property", "command with three properties".


def test_message_is_escaped_as_the_toolkit_does():
    assert github.command("some-command", "percent % percent % cr \r cr \r lf \n lf \n") == (
        "::some-command::percent %25 percent %25 cr %0D cr %0D lf %0A lf %0A"
    )
    assert github.command("some-command", "%25 %25 %0D %0D %0A %0A %3A %3A %2C %2C") == (
        "::some-command::%2525 %2525 %250D %250D %250A %250A %253A %253A %252C %252C"
    )


def test_property_is_escaped_as_the_toolkit_does():
    value = "percent % percent % cr \r cr \r lf \n lf \n colon : colon : comma , comma ,"
    assert github.command("some-command", "", name=value) == (
        "::some-command name=percent %25 percent %25 cr %0D cr %0D lf %0A lf %0A colon %3A colon %3A comma %2C comma %2C::"
    )
    assert github.command(
        "some-command", "some message", prop1="value 1", prop2="value 2", prop3="value 3"
    ) == ("::some-command prop1=value 1,prop2=value 2,prop3=value 3::some message")


def test_places_count_from_the_top_of_the_repository(broken, monkeypatch, tmp_path):
    (tmp_path / "repository" / "handbook").mkdir(parents=True)
    monkeypatch.setenv("GITHUB_WORKSPACE", str(tmp_path / "repository"))
    monkeypatch.chdir(tmp_path / "repository" / "handbook")
    assert "::error file=handbook/catalog/muscles/lantern.yaml,line=2,col=1," in render(
        broken, "github"
    )
    assert '"uri": "handbook/catalog/muscles/lantern.yaml"' in render(broken, "sarif")
    # A catalog elsewhere is named as the person named it.
    monkeypatch.chdir(tmp_path)
    assert "::error file=catalog/muscles/lantern.yaml,line=2,col=1," in render(broken, "github")


def test_a_catalog_on_another_drive_is_named_as_the_person_named_it(broken, monkeypatch):
    """Outside source: Python's own path module for Windows, where no path leads from one drive to another."""
    monkeypatch.setenv("GITHUB_WORKSPACE", "D:\\a\\handbook")
    monkeypatch.setattr("os.path.abspath", lambda file: ntpath.join("C:\\", file))
    monkeypatch.setattr("os.path.relpath", ntpath.relpath)
    assert "::error file=catalog/muscles/lantern.yaml,line=2,col=1," in render(broken, "github")


def test_the_job_summary_stays_below_the_limit(broken):
    """GitHub drops a step's summary at 1 MiB (documentation, "Step isolation and limits")."""
    many = Report([item for _ in range(5000) for item in broken.reported], 9)
    text = job_summary.render(many)
    assert 400_000 < len(text.encode()) < 2**20
    assert re.search(r"\n\n[\d,]+ more in the log of this step\.\n", text)


# --- SARIF 2.1.0 -----------------------------------------------------------------
# Outside models: sarif-pydantic (types, levels) and sarif-om (generated from the OASIS schema: every
# property name the standard knows, and which ones an object must have).

_OBJECTS = {
    "runs": "Run",
    "tool": "Tool",
    "driver": "ToolComponent",
    "rules": "ReportingDescriptor",
    "invocations": "Invocation",
    "toolExecutionNotifications": "Notification",
    "results": "Result",
    "automationDetails": "RunAutomationDetails",
    "message": "Message",
    "locations": "Location",
    "physicalLocation": "PhysicalLocation",
    "artifactLocation": "ArtifactLocation",
    "region": "Region",
    "shortDescription": "MultiformatMessageString",
    "fullDescription": "MultiformatMessageString",
    "help": "MultiformatMessageString",
    "defaultConfiguration": "ReportingConfiguration",
    "associatedRule": "ReportingDescriptorReference",
    "properties": "PropertyBag",
}


def assert_in_the_standard(value, name, where=""):
    model = getattr(sarif_om, name)
    if name == "PropertyBag":
        return
    known = {field.metadata["schema_property_name"]: field for field in model.__attrs_attrs__}
    assert set(value) <= set(known), where
    needed = {
        key
        for key, field in known.items()
        if field.default is not None and "NOTHING" in repr(field.default)
    }
    assert needed <= set(value), where
    for key, inner in value.items():
        for item in inner if isinstance(inner, list) else [inner]:
            if isinstance(item, dict):
                assert_in_the_standard(item, _OBJECTS[key], f"{where}/{key}")


def with_internal_error(demo):
    def check(context):
        raise KeyError("hip")
        yield

    return Report(
        run(load(demo, "catalog"), None, {}, {"known-exercise": SimpleNamespace(check=check)}), 9
    )


def test_sarif_is_what_the_standard_describes(broken, demo):
    for found in (broken, with_internal_error(demo), Report([])):
        log = json.loads(render(found, "sarif"))
        assert_in_the_standard(log, "SarifLog")
        assert Sarif.model_validate(log).version == "2.1.0"


def test_sarif_names_its_tool_and_its_category(monkeypatch):
    """Sections 3.19.13, 3.19.17 and 3.17.3: the version, an absolute address of an explanation, a category that ends with a slash."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]

    def driver(title="Handbook check"):
        run_ = json.loads(render(Report([], title=title), "sarif"))["runs"][0]
        return run_["tool"]["driver"], run_["automationDetails"]["id"]

    told_, category = driver()
    assert told_["version"] == project["version"] and "informationUri" not in told_
    assert category == "handbook-check/" and driver("Handbook conclude")[1] == "handbook-conclude/"
    monkeypatch.setenv("GITHUB_SERVER_URL", "https://github.com")
    monkeypatch.setenv("GITHUB_REPOSITORY", "owner/handbook")
    assert driver()[0]["informationUri"] == "https://github.com/owner/handbook"
    monkeypatch.setenv("SITE_URL", "https://handbook.example/")
    assert driver()[0]["informationUri"] == "https://handbook.example/rules/"
    assert_in_the_standard(json.loads(render(Report([]), "sarif")), "SarifLog")


def test_sarif_describes_every_id_and_points_to_it(broken):
    run_ = Sarif.model_validate_json(render(broken, "sarif")).runs[0]
    rules = run_.tool.driver.rules
    assert [rule.id for rule in rules] == list(manuals())
    for result in run_.results:
        assert rules[result.rule_index].id == result.rule_id
    basis = next(rule for rule in rules if rule.id == "statement-basis")
    manual = manuals()["statement-basis"]
    assert (basis.name, basis.short_description.text, basis.full_description.text) == (
        "StatementBasis",
        manual.title,
        manual.why,
    )
    assert manual.fails[0].fragment.rstrip() in basis.help.text


def test_a_rule_that_fails_is_a_notification_of_the_tool(demo):
    run_ = Sarif.model_validate_json(render(with_internal_error(demo), "sarif")).runs[0]
    assert not run_.invocations[0].execution_successful
    assert not any(result.rule_id == "internal-error" for result in run_.results)
    assert "the rule `known-exercise` failed" in str(
        run_.invocations[0].model_extra["toolExecutionNotifications"]
    )


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(
            shutil.copytree(
                Path(__file__).parents[1] / "demo" / "catalog", Path(folder) / "catalog"
            )
        )
        break_demo(copy)
        for name in FORMATS:
            (GOLDEN / f"{name}.txt").write_text(
                told(report(copy), name), encoding="utf-8", newline="\n"
            )
    sys.stderr.write(f"wrote {len(FORMATS)} files to {GOLDEN}\n")
