"""Data flows one way, and only one room knows the site generator."""

import ast
import builtins
import re
from collections import Counter
from pathlib import Path

import pytest

from build_tools import LAYERS, evidence

PACKAGE = Path(__file__).parents[1] / "build_tools"
#: Each may import from itself and from those before it.
ROOMS = list(LAYERS)


def imported(path: Path) -> set[str]:
    """Absolute names of the modules that a file of the package imports, wherever in the file."""
    inside = ("build_tools", *path.relative_to(PACKAGE).parts[:-1])
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = inside[: len(inside) - node.level + 1] if node.level else ()
            module = ".".join([*base, *([node.module] if node.module else [])])
            names |= {module, *(f"{module}.{alias.name}" for alias in node.names)}
    return names


#: Rooms that may hold more, for now or by design.
CROWDED = {"checks/rules": 80}
MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_only_the_adapter_imports_mkdocs(path):
    uses = {name for name in imported(path) if name.split(".")[0] in ("mkdocs", "material")}
    assert not uses or path.parent == PACKAGE / "site" / "adapter"


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@pytest.mark.parametrize(
    "path",
    [p for p in MODULES if p.parent != PACKAGE or p.stem != "__init__"],
    ids=lambda p: p.relative_to(PACKAGE).as_posix(),
)
def test_nothing_imports_from_a_later_room(path):
    later = ROOMS[ROOMS.index(room(path)) + 1 :]
    assert not {
        name
        for name in imported(path)
        if name.split(".")[:2] in [["build_tools", other] for other in later]
    }


ENGINE = PACKAGE / "evidence"
ENGINE_ROOMS = list(evidence.LAYERS)


def engine_room(path: Path) -> str:
    return path.relative_to(ENGINE).parts[0].removesuffix(".py")


@pytest.mark.parametrize(
    "path",
    [p for p in MODULES if p.is_relative_to(ENGINE) and p != ENGINE / "__init__.py"],
    ids=lambda p: p.relative_to(ENGINE).as_posix(),
)
def test_nothing_of_the_engine_imports_from_its_later_rooms(path):
    later = ENGINE_ROOMS[ENGINE_ROOMS.index(engine_room(path)) + 1 :]
    assert not {
        name
        for name in imported(path)
        if name.split(".")[:3] in [["build_tools", "evidence", other] for other in later]
    }


def test_every_room_of_the_engine_is_listed_and_no_other():
    found = {engine_room(p) for p in MODULES if p.is_relative_to(ENGINE)} - {"__init__"}
    assert found == set(ENGINE_ROOMS)


def test_every_room_is_listed_and_no_other():
    assert {room(path) for path in MODULES if room(path) != "__init__"} == set(ROOMS)


def test_the_guide_tells_the_same_rooms_in_the_same_order():
    guide = (PACKAGE.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = re.findall(r"^\| `build_tools/([a-z_]+)(?:/|\.py)` \| (.+?) \|$", guide, re.MULTILINE)
    assert table == [(name, holds.replace("``", "`")) for name, holds in LAYERS.items()]


@pytest.mark.parametrize(
    "folder",
    sorted({path.parent for path in MODULES}),
    ids=lambda p: p.relative_to(PACKAGE.parent).as_posix(),
)
def test_no_room_is_crowded(folder):
    """Fifteen files are what a newcomer can take in; one rule one file is the design of ``rules``."""
    files = len(list(folder.glob("*.py")))
    assert files <= CROWDED.get(folder.relative_to(PACKAGE).as_posix(), 15)


#: Added by Python's ``site`` for the prompt, no names of the language.
PROMPT = {"copyright", "credits", "exit", "help", "license", "quit"}


def test_a_name_means_one_thing():
    """A public class has its name alone, and no class or function hides one of Python's own."""
    defined = [
        (node, path)
        for path in MODULES
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef | ast.FunctionDef)
    ]
    classes = Counter(
        node.name
        for node, _ in defined
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    )
    assert not {name for name, times in classes.items() if times > 1}
    assert not {
        f"{path.name}: {node.name}"
        for node, path in defined
        if node.name in vars(builtins).keys() - PROMPT
    }
