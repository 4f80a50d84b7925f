"""Another team's handbook from end to end, with nothing of this repository but the wheel.

Built, installed into an empty environment, begun, added to and published by the commands that its README names, and opened in Chromium
as readers meet it. The exercise, the paper and its numbers are invented.
"""

from __future__ import annotations

import importlib.util
import json
import os
import re
import subprocess
import sys
import sysconfig
import venv
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlsplit

import pytest
from folders import ROOT
from site_reading import broken_links
from site_serving import serve

from build_tools.commands import COMMANDS

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

TITLE, OWNER = "Berry Lane: strength", "Berry Lane studio"
ADDRESS = "https://berry-lane.example/handbook/"
DAY = "1796083200"  # 1 December 2026
EXPORT = """\
TY  - JOUR
AU  - Plum, Ivy
AU  - Quince, Bo
TI  - One leg or two for the calf: an invented trial
JO  - Journal of Invented Results
PY  - 2026
VL  - 3
SP  - 1
EP  - 9
DO  - 10.0000/invented.plum
ER  -
"""
EXERCISE = """\
name: Heel raise with a pack
equipment: [chair]
set_credit: {calf: direct}
movement:
  position: on-toes
  support: {toes: 0}
  from: {hip: 0, knee: 0, ankle: 0, shoulder: 35, elbow: 45}
  to: {hip: 0, knee: 0, ankle: -35, shoulder: 28, elbow: 42}
  load: {kind: body-weight}
emphasis:
  - part: [calf/soleus]
    outcome: growth
    more_than: {exercise: example-heel-raise}
    because: The pack makes the body heavier.
    cites: [{key: plum2026, at: abstract}]
cues:
  set_up:
    - {do: Put the pack on both shoulders., common_practice: On one it pulls the trunk aside.}
  move:
    - {do: Rise on your toes., common_practice: The usual words.}
  check:
    - {do: The pack stays still., common_practice: A swinging pack helps.}
faults:
  - {see: The back arches., say: Keep your ribs down., common_practice: A heavy pack pulls backwards.}
cautions:
  - who: Anyone with a sore back.
    concerns: [lower-back]
    instead: Leave the pack away.
    stop_if: Pain shoots down a leg.
    ask: A doctor or licensed physiotherapist.
    common_practice: A pack loads the spine.
swaps: [example-heel-raise]
reviewed: 2026-11-30
"""
STUDY = """\
design: parallel
allocation: random
same_people: false
people: {n: 40, women: 20, trained: false}
weeks: 10
arms:
  pack: {exercise: pack-heel-raise, called: heel raise with a pack, n: 20}
  plain: {exercise: example-heel-raise, called: heel raise, n: 20}
results:
  - parts: [calf/soleus]
    measured: part
    measure: ultrasound-thickness
    unit: "%"
    at: abstract
    values:
      pack: {change_percent: 9, sd: 4}
      plain: {change_percent: 4, sd: 4}
    contrasts:
      - {of: pack, against: plain, favours: of, p_below: 0.01, test: between}
left_out: []
appraisal:
  allocation: {answer: not stated, at: abstract}
  alike-at-start: {answer: not stated, at: abstract}
  trained-alike: {answer: not stated, at: abstract}
  all-measured: {answer: not stated, at: abstract}
  measured-blind: {answer: not stated, at: abstract}
  repeatable: {answer: not stated, at: abstract}
  all-told: {answer: not stated, at: abstract}
says: The deep calf grew more with the pack.
limits: Invented, so it can tell nothing.
"""


FOLDERS = {"exercise": "exercises", "study": "studies"}


class Ran(NamedTuple):
    status: int
    told: str


class Own:
    """The folder of the handbook, and the programs of an environment that has the wheel."""

    def __init__(self, folder: Path, environment: Path) -> None:
        self.folder = folder
        self._binaries = environment / ("Scripts" if os.name == "nt" else "bin")
        gone = ("PYTHONPATH", "PYTHONHOME", "SITE_URL")
        self._surroundings = {
            **{name: value for name, value in os.environ.items() if name not in gone},
            "SOURCE_DATE_EPOCH": DAY,
            "NO_MKDOCS_2_WARNING": "1",
        }

    def run(self, program: str, *arguments: str, here: Path | None = None, **env: str) -> Ran:
        done = subprocess.run(
            [self._binaries / program, *arguments],
            cwd=here or self.folder,
            env={**self._surroundings, **env},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
        )
        return Ran(done.returncode, done.stdout + done.stderr)

    def handbook(self, *arguments: str) -> Ran:
        return self.run("handbook", *arguments)

    def build(self, *options: str) -> Ran:
        return self.run("python", "-m", "mkdocs", "build", "--strict", *options, SITE_URL=ADDRESS)


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of this checkout."""
    if importlib.util.find_spec("hatchling") is None:
        pytest.skip("hatchling is not installed here, and without a network no wheel can be built")
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [
            sys.executable,
            "-m",
            "hatchling",
            "build",
            "--target",
            "wheel",
            "--directory",
            str(folder),
        ],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    [made] = folder.glob("*.whl")
    return made


@pytest.fixture(scope="module")
def own(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Own:
    """A handbook as `handbook start` leaves it. The libraries are those of these tests, the engine is the wheel's."""
    top = tmp_path_factory.mktemp("own")
    environment = top / "environment"
    venv.create(environment)
    python = environment / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    pip = [sys.executable, "-m", "pip", "--python", str(python), "install", "--quiet"]
    subprocess.run([*pip, "--no-index", "--no-deps", str(wheel)], check=True)
    [libraries] = environment.rglob("site-packages")
    # What stands in a folder named so is found; its own .pth files, which lead to this checkout, are not read.
    (libraries / "libraries.pth").write_text(sysconfig.get_path("purelib"), encoding="utf-8")
    made = Own(top / "berry-lane", environment)
    told = made.run("handbook", "start", "berry-lane", "--title", TITLE, "--owner", OWNER, here=top)
    assert told.status == 0, told
    return made


@pytest.fixture(scope="module")
def site(own: Own) -> Path:
    """Its site after an exercise and a study were added by the commands that its README names."""
    catalog = own.folder / "catalog"
    (own.folder / "plum.ris").write_text(EXPORT, encoding="utf-8")
    cited = own.handbook("cite", "plum.ris")
    assert cited.status == 0 and "@article{plum2026" in cited.told, cited
    records = catalog / "references.bib"
    text = records.read_text(encoding="utf-8")
    before, record = text.split("@article{plum2026,")
    record = re.sub(r"\bread = \{.*\}", "read = {abstract}", record, count=1)
    record = re.sub(r"readat = \{.*\}", "readat = {this test}", record, count=1)
    text = f"{before}@article{{plum2026,{record}"
    records.write_text(text, encoding="utf-8")
    for kind, id, finished in (
        ("exercise", "pack-heel-raise", EXERCISE),
        ("study", "plum2026", STUDY),
    ):
        path = catalog / FOLDERS[kind] / f"{id}.yaml"
        path.parent.mkdir(exist_ok=True)
        if "new" in COMMANDS:
            begun = own.handbook("new", kind, id)
            assert begun.status == 0 and path.is_file(), begun
            refused = own.handbook("check")
            assert refused.status == 1 and "[draft-finished]" in refused.told, refused
        path.write_text(finished, encoding="utf-8")
    for command in (["check", "--strict"], ["conclude"], ["addresses"]):
        told = own.handbook(*command)
        assert told.status == 0, told
    told = own.build()
    assert told.status == 0, told
    return own.folder / "site"


@pytest.fixture(scope="module")
def address(site: Path) -> Iterator[str]:
    with serve(site) as at:
        yield at


def test_the_engine_is_the_wheels(own: Own) -> None:
    told = own.run("python", "-c", "import build_tools; print(build_tools.__file__)").told
    assert not Path(told.strip()).is_relative_to(ROOT)
    assert Path(told.strip()).is_relative_to(own.folder.parent)


def test_it_can_be_installed_again_from_what_it_holds(own: Own, wheel: Path) -> None:
    """PEP 610: pip records where a distribution came from; the wheel's file goes along, since no index has it."""
    assert f"./engine/{wheel.name}\n" in (own.folder / "requirements.txt").read_text("utf-8")
    assert (own.folder / "engine" / wheel.name).read_bytes() == wheel.read_bytes()


def test_a_folder_that_holds_something_is_left_alone(own: Own) -> None:
    before = sorted(path.name for path in own.folder.iterdir())
    told = own.handbook("start", ".")
    assert told.status == 2 and "name a new or empty folder" in told.told
    assert sorted(path.name for path in own.folder.iterdir()) == before


def test_every_check_passes_after_the_commands(own: Own, site: Path) -> None:
    for command in ("check", "conclude --check", "addresses --check"):
        told = own.handbook(*command.split(), "--strict")
        assert told.status == 0, told


def test_no_link_is_dead(site: Path) -> None:
    assert broken_links(site) == []


def test_nothing_is_loaded_from_another_host(site: Path) -> None:
    for page in site.rglob("*.html"):
        html = page.read_text(encoding="utf-8")
        loaded = re.findall(r'<(?:script|img|iframe|source)[^>]*\ssrc="([^"]*)"', html)
        for tag in re.findall(r"<link\s[^>]*>", html):
            if not re.search(r'rel="(?:canonical|alternate|prev|next)"', tag):
                loaded += re.findall(r'href="([^"]*)"', tag)
        hosts = {urlsplit(at).netloc for at in loaded if not at.startswith("data:")}
        assert hosts <= {""}, page
    for sheet in site.rglob("*.css"):
        assert not re.search(r"(?:url\(|@import)\s*['\"]?https?:", sheet.read_text("utf-8")), sheet


def test_every_listed_address_answers_and_none_is_for_others(own: Own, site: Path) -> None:
    listed = (own.folder / "catalog" / "addresses.txt").read_text(encoding="utf-8").splitlines()
    pages = {
        f"/{page.parent.relative_to(site).as_posix()}/".replace("/./", "/")
        for page in site.rglob("index.html")
    }
    assert set(listed[1:]) == pages
    assert "/audits/" not in listed, "a page that only this repository has"


def test_notice_and_licence_stand_below_every_page(site: Path) -> None:
    for page in ("", "exercises/pack-heel-raise/", "muscles/calf/", "week/", "methods/"):
        html = (site / page / "index.html").read_text(encoding="utf-8")
        footer = html[html.index('<footer class="md-footer hb-footer">') :]
        assert "not medical advice" in footer and f"{OWNER}. Text and data: CC BY 4.0." in footer


def test_what_the_study_says_is_told(site: Path) -> None:
    page = (site / "exercises" / "pack-heel-raise" / "index.html").read_text(encoding="utf-8")
    assert "Plum" in page and "#claim-1" in page
    assert "Heel raise with a pack" in json.dumps(
        [path.read_text(encoding="utf-8") for path in (site / "search").glob("names-*.json")]
    )


def test_what_only_the_team_can_say_is_demanded(own: Own, site: Path, tmp_path: Path) -> None:
    content = own.folder / "content"
    home, cautions, other = content / "index.md", content / "cautions.md", own.folder / "other.yml"
    settings, before = (own.folder / "mkdocs.yml").read_text("utf-8"), home.read_bytes()
    try:
        home.unlink()
        cautions.write_text("# Cautions\n\nTake care.\n", "utf-8")
        other.write_text(
            settings.replace(TITLE, "Another").replace("[handbook]", "[search, handbook]"), "utf-8"
        )
        told = own.build("-f", "other.yml", "--site-dir", str(tmp_path / "site"))
    finally:
        other.unlink()
        cautions.unlink()
        home.write_bytes(before)
    assert told.status != 0
    for words in (
        "content/index.md is missing: write",
        "content/cautions.md: the notice is missing; write `<!-- handbook: notice -->`",
        "content/cautions.md: other pages link to `#by-concern`",
        "`site_name` is `Another`",
        "take the plugin `search` out",
    ):
        assert words in told.told, told
    assert not (tmp_path / "site").exists(), "stopped before anything is written"


# --- in Chromium ---------------------------------------------------------------


@pytest.fixture(scope="module", params=["light", "dark"])
def page(request: pytest.FixtureRequest, browser: Browser, address: str) -> Iterator[Page]:
    """A page that notes every request to another host, every answer that is none, and every complaint."""
    with browser.new_context(base_url=address, color_scheme=request.param) as context:
        opened = context.new_page()
        wrong: list[str] = []
        opened.on(
            "request",
            lambda asked: (
                None
                if asked.url.startswith((address, "data:", "blob:"))
                else wrong.append(asked.url)
            ),
        )
        opened.on(
            "response",
            lambda answer: wrong.append(answer.url) if answer.status >= 400 else None,
        )
        opened.on("pageerror", lambda error: wrong.append(str(error)))
        yield opened
        assert wrong == []


ACCENT = {"light": "#8a2f55", "dark": "#efa9c6"}
PAGES = [
    "",
    "exercises/pack-heel-raise/",
    "muscles/calf/",
    "find/",
    "week/",
    "cautions/",
    "methods/",
]


@pytest.mark.browser
@pytest.mark.parametrize("path", PAGES)
def test_pages_are_styled_with_local_fonts_alone(page: Page, path: str) -> None:
    page.goto(path, wait_until="networkidle")
    scheme = (
        "dark" if page.evaluate("matchMedia('(prefers-color-scheme: dark)').matches") else "light"
    )
    accent = "getComputedStyle(document.body).getPropertyValue('--hb-accent').trim()"
    assert page.evaluate(accent) == ACCENT[scheme]
    assert "system-ui" in page.evaluate("getComputedStyle(document.body).fontFamily")
    assert page.evaluate("[...document.fonts].filter(f => f.status === 'loaded').length") == 0
    assert page.locator("h1").inner_text() and page.locator("footer.hb-footer").is_visible()
    assert "{#" not in page.locator("body").inner_text(), "extensions of Markdown are at work"


@pytest.mark.browser
@pytest.mark.parametrize("window", [(390, 844), (1366, 900)], ids=["phone", "laptop"])
def test_a_cue_sheet_opens_with_its_cautions_in_the_teams_colours(
    page: Page, window: tuple[int, int]
) -> None:
    page.set_viewport_size({"width": window[0], "height": window[1]})
    page.goto("cues/pack-heel-raise/")
    assert page.locator("h1").inner_text() == "Heel raise with a pack"
    shown = page.locator("main").inner_text()
    for words in ("Call for emergency help if", "Pain shoots down a leg.", "Leave the pack away."):
        assert words in shown
    assert page.locator("footer").inner_text().count("not medical advice") == 1
    dark = page.evaluate("matchMedia('(prefers-color-scheme: dark)').matches")
    link = page.locator("footer .notice a")
    red, green, blue = bytes.fromhex(ACCENT["dark" if dark else "light"].removeprefix("#"))
    assert link.evaluate("a => getComputedStyle(a).color") == f"rgb({red}, {green}, {blue})"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.browser
def test_a_handout_is_made_of_an_exercise(page: Page) -> None:
    page.goto("handout/#add=pack-heel-raise", wait_until="networkidle")
    page.locator("[data-part=open]").click()
    page.locator("[data-part=list]", has_text="Heel raise").wait_for()
    assert page.locator("[data-part=list]").inner_text().count("Heel raise with a pack") == 1
    assert page.locator(".rules .stop").first.is_visible()
