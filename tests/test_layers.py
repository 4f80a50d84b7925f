"""Data flows one way, and only one module knows the site generator."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "build_tools"
#: Each layer may import from itself and from those before it.
LAYERS = ["catalog", "handout", "movement", "checks", "evidence", "planning", "site"]


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


MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_only_the_plugin_imports_mkdocs(path):
    uses = {name for name in imported(path) if name.split(".")[0] in ("mkdocs", "material")}
    assert not uses or path == PACKAGE / "site" / "plugin.py"


@pytest.mark.parametrize("path", [p for p in MODULES if p.relative_to(PACKAGE).parts[0] in LAYERS],
                         ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_nothing_imports_from_a_later_layer(path):
    later = LAYERS[LAYERS.index(path.relative_to(PACKAGE).parts[0]) + 1:]
    assert not {name for name in imported(path) if name.split(".")[:2] in [["build_tools", layer] for layer in later]}
