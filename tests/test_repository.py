"""What a code host and its visitors look for: licences, forms, the contributing page, what a checkout does to files.

Outside sources: the MIT licence as pytest ships it; the legal text of CC BY 4.0 as choosealicense.com keeps it (licensee
9.15.2 recognises both files fully); the published JSON Schemas of Citation File Format 1.2, issue forms, Dependabot and
workflows, which check-jsonschema carries; git for attributes, line ends and merges; Keep a Changelog 1.1.
"""

from __future__ import annotations

import hashlib
import re
import shutil
import subprocess
import sys
import tomllib
from importlib.metadata import distribution
from pathlib import Path

import pytest
import yaml
from folders import ROOT
from repositories import git

from build_tools.commands import COMMANDS
from build_tools.committed import addresses
from build_tools.committed.conclusions import FOLDER, HEADER

HOSTED = ROOT / ".github"
PAGES = sorted([*HOSTED.glob("*.md"), ROOT / "README.md", ROOT / "DEVELOPERS.md"])
needs_git = pytest.mark.skipif(
    shutil.which("git") is None or not (ROOT / ".git").exists(), reason="needs git and a checkout"
)


def read(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


# --- licences ----------------------------------------------------------------------


def test_the_licence_of_the_code_is_the_mit_licence_word_for_word() -> None:
    def words(text: str) -> list[str]:
        return text[text.index("Permission is hereby granted") :].split()

    shipped = next(path for path in distribution("pytest").files or [] if path.name == "LICENSE")
    assert words(read("LICENSE")) == words(shipped.read_text(encoding="utf-8"))
    assert re.match(r"MIT License\n\nCopyright \(c\) \d{4} .+\n\nPermission", read("LICENSE"))


def test_the_licence_of_the_text_is_the_whole_legal_code() -> None:
    digest = hashlib.sha256((ROOT / "LICENSE-CC-BY-4.0").read_bytes()).hexdigest()
    assert digest == "f5b745ef98087f531e719ee8ca6a96809444573ecc7173c6fa68eaad39b3cc3f"


def test_every_place_names_the_same_licences() -> None:
    project = tomllib.loads(read("pyproject.toml"))["project"]
    assert (project["license"], project["license-files"]) == ("MIT", ["LICENSE"])
    assert yaml.safe_load(read("CITATION.cff"))["license"] == ["MIT", "CC-BY-4.0"]
    assert yaml.safe_load(read("catalog/handbook.yaml"))["licence"] == "CC BY 4.0"
    assert "MIT" in read("README.md") and "CC BY 4.0" in read("README.md")


# --- releases ----------------------------------------------------------------------


def test_version_changelog_and_citation_agree() -> None:
    """What `.github/RELEASING.md` asks before a tag is set."""
    version = tomllib.loads(read("pyproject.toml"))["project"]["version"]
    headings = re.findall(
        r"^## \[?([^\]\s]+)\]?(?: - (\d{4}-\d\d-\d\d))?$", read("CHANGELOG.md"), re.MULTILINE
    )
    assert [name for name, _ in headings][:2] == ["Unreleased", version]
    citation = yaml.safe_load(read("CITATION.cff"))
    assert str(citation["version"]) == version
    assert str(citation.get("date-released", "")) == headings[1][1]
    assert re.fullmatch(r"\d+\.\d+\.\d+", version)
    numbers = [tuple(map(int, name.split("."))) for name, _ in headings[1:]]
    assert numbers == sorted(numbers, reverse=True)


# --- forms ---------------------------------------------------------------------------

FORMS = {
    "vendor.citation-file-format": [ROOT / "CITATION.cff"],
    "vendor.dependabot": [HOSTED / "dependabot.yml"],
    "vendor.github-issue-config": [HOSTED / "ISSUE_TEMPLATE" / "config.yml"],
    "vendor.github-issue-forms": sorted((HOSTED / "ISSUE_TEMPLATE").glob("[0-9]*.yml")),
    "vendor.github-workflows": sorted((HOSTED / "workflows").glob("*.yml")),
}


def validate(schema: str, *files: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema, *map(str, files)],
        capture_output=True,
        encoding="utf-8",
    )


@pytest.mark.parametrize("schema", FORMS)
def test_what_the_host_reads_is_what_its_schema_describes(schema: str, tmp_path: Path) -> None:
    told = validate(schema, *FORMS[schema])
    assert told.returncode == 0, told.stdout + told.stderr
    broken = tmp_path / FORMS[schema][0].name
    broken.write_text("nonsense: [1]\n", encoding="utf-8")
    assert validate(schema, broken).returncode == 1, "the schema refuses something"


def test_the_forms_ask_what_the_issue_needs() -> None:
    assert [path.stem for path in FORMS["vendor.github-issue-forms"]] == [
        "1-wrong-claim",
        "2-unclear-cue",
        "3-exercise",
        "4-study",
    ]
    for path in FORMS["vendor.github-issue-forms"]:
        form = yaml.safe_load(path.read_text(encoding="utf-8"))
        asked = [field for field in form["body"] if field["type"] != "markdown"]
        ids = [field["id"] for field in asked]
        assert len(set(ids)) == len(ids) and any(
            field.get("validations", {}).get("required") for field in asked
        )
    # A sentence that could hurt somebody never begins as a public issue.
    assert "Could somebody be hurt" in read(".github/ISSUE_TEMPLATE/2-unclear-cue.yml")
    assert "could hurt somebody" in read(".github/ISSUE_TEMPLATE/config.yml")
    assert "Report a vulnerability" in read(".github/SECURITY.md")


# --- pages for contributors ------------------------------------------------------------


def slug(heading: str) -> str:
    """A heading's anchor as the host makes it: small letters, hyphens for spaces, no other marks."""
    return re.sub(r"[^\w\- ]", "", heading.strip().lower()).replace(" ", "-")


def anchors(path: Path) -> set[str]:
    text = re.sub(r"```.*?```", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    return {slug(heading) for heading in re.findall(r"^#+ (.+)$", text, re.MULTILINE)}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_between_the_pages_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)\s]+)\)", page.read_text(encoding="utf-8")):
        if "://" in target:
            continue
        file, _, anchor = target.partition("#")
        to = (page.parent / file).resolve() if file else page
        assert to.exists(), target
        assert not anchor or anchor in anchors(to), target


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_commands_that_pages_tell_are_there(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    targets = set(re.findall(r"^([a-z]+):", read("Makefile"), re.MULTILINE))
    told = re.findall(r"^make ((?:[a-z]+ ?)+)|`make ((?:[a-z]+ ?)+)", text, re.MULTILINE)
    assert {word for pair in told for words in pair for word in words.split()} <= targets
    commands = re.findall(r"(?:^|bin/)handbook ([a-z-]+)", "\n".join(code(text)), re.MULTILINE)
    assert set(commands) <= COMMANDS.keys()


def code(text: str) -> list[str]:
    return [*re.findall(r"```sh\n(.*?)```", text, re.DOTALL), *re.findall(r"`([^`\n]+)`", text)]


def test_the_contributing_page_can_be_read_between_two_clients() -> None:
    assert len(read(".github/CONTRIBUTING.md").split()) <= 800
    assert {path.name for path in HOSTED.glob("*.md")} == {
        "CODE_OF_CONDUCT.md",
        "CONTRIBUTING.md",
        "RELEASING.md",
        "SECURITY.md",
        "preview.md",
        "pull_request_template.md",
    }


def test_the_owners_example_names_places_that_are_there() -> None:
    places = re.findall(r"^# (/\S+)", read(".github/CODEOWNERS"), re.MULTILINE)
    assert places and all((ROOT / place.lstrip("/")).exists() for place in places)


# --- checkouts ---------------------------------------------------------------------------


@needs_git
def test_files_have_the_same_bytes_on_every_machine() -> None:
    """A checkout never writes CRLF: generated files are compared byte by byte."""
    for line in git(ROOT, "ls-files", "--eol").splitlines():
        stored, _, rest = line.split(maxsplit=2)
        assert stored in ("i/lf", "i/none", "i/-text"), line
        if stored == "i/lf":
            assert "eol=lf" in rest, line


@needs_git
def test_generated_files_are_marked() -> None:
    generated = [
        f"catalog/{addresses.FILE}",
        f"catalog/{FOLDER}/exercises/any.yaml",
        "catalog/changes.yaml",
    ]
    told = git(ROOT, "check-attr", "linguist-generated", "--", *generated, "catalog/handbook.yaml")
    assert [line.rpartition(" ")[2] for line in told.splitlines()] == [
        "set",
        "set",
        "set",
        "unspecified",
    ]
    assert HEADER.startswith("#")


@needs_git
def test_two_branches_that_each_add_an_address_merge(tmp_path: Path) -> None:
    """Both sides' lines stay; `handbook addresses` then brings them in order."""
    git(tmp_path, "init", "--quiet", "--initial-branch", "main")
    shutil.copyfile(ROOT / ".gitattributes", tmp_path / ".gitattributes")
    listed = tmp_path / "catalog" / addresses.FILE
    listed.parent.mkdir()

    def commit(*lines: str) -> None:
        listed.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8", newline="\n")
        git(tmp_path, "add", ".")
        git(tmp_path, "commit", "--quiet", "--message", "lines")

    commit("/", "/muscles/")
    git(tmp_path, "switch", "--quiet", "--create", "other")
    commit("/", "/exercises/b/", "/muscles/")
    git(tmp_path, "switch", "--quiet", "main")
    commit("/", "/exercises/a/", "/muscles/")
    git(tmp_path, "merge", "--quiet", "--no-edit", "other")
    assert sorted(listed.read_text(encoding="utf-8").splitlines()) == [
        "/",
        "/exercises/a/",
        "/exercises/b/",
        "/muscles/",
    ]
