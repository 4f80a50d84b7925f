"""Nothing lies about unused: what only tests run is no part of the product.

By names alone, as found by parsing (no call graph): a name that is used anywhere else in the package, in a template or in the
configuration counts as used, so a slip can stay unseen but nothing that is used is ever named.
"""

import ast
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from build_tools.checks.reports import FORMATS
from build_tools.commands import COMMANDS
from build_tools.revisions.reports import FORMATS as DIFFERENCE_FORMATS

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "build_tools"

#: Modules and ``module.name`` that nothing uses but tests, each with the reason why it stays. One that is used or gone is an error.
ALLOWED = {
    "evidence.LAYERS": "The order of the engine's rooms, for the test of layers and the reader.",
}

#: Names that a library calls: what they are defined in, and how they begin.
CALLED_BY_LIBRARIES = {
    "catalog.bibliography.bibtex": ("parse_", "update_"),  # pybtex's parser
    "catalog.schema.json_schema": (
        "field_title_",
        "default_schema",
        "str_schema",
        "date_schema",
        "dict_schema",
        "model_schema",
    ),  # pydantic's generator
    "site.hosting.policy": ("handle_",),  # as above
    "site.adapter.plugin": ("on_",),  # MkDocs' events
    "site.adapter.preview": ("load_bytecode", "dump_bytecode"),  # jinja2's cache
}


@cache
def modules() -> dict[str, ast.Module]:
    """Dotted name below the package -> the parsed module."""
    return {
        ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix(
            ".__init__"
        ): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(PACKAGE.rglob("*.py"))
        if path != PACKAGE / "__init__.py"
    }


def imported(name: str) -> set[str]:
    """``module.name`` of what a module imports from the package, wherever in the file."""
    folder = (
        name.split(".") if (PACKAGE / Path(*name.split("."))).is_dir() else name.split(".")[:-1]
    )
    found = set()
    for node in ast.walk(modules()[name]):
        if isinstance(node, ast.ImportFrom):
            base = (
                folder[: len(folder) - node.level + 1]
                if node.level
                else (node.module or "").split(".")[1:]
            )
            if node.level and node.module:
                base = [*base, *node.module.split(".")]
            elif not node.level and not (node.module or "").startswith("build_tools"):
                continue
            found |= {".".join([*base, alias.name]) for alias in node.names}
    return found


def _with_parents(name: str) -> Iterator[str]:
    parts = name.split(".")
    return (".".join(parts[:length]) for length in range(1, len(parts) + 1))


def test_every_module_is_reached_from_the_command_the_plugin_and_the_rules() -> None:
    """Roots: both entry points of pyproject.toml, and what is loaded by name: subcommands, rules, formats of reports."""
    roots = [
        "cli",
        "site.adapter.plugin",
        *(name for name in modules() if name.startswith("checks.rules.")),
        *(f"commands.{name.replace('-', '_')}" for name in COMMANDS),
        *(f"checks.reports.{name}" for name in FORMATS),
        *(f"revisions.reports.{name}" for name in DIFFERENCE_FORMATS),
    ]
    reached: set[str] = set()
    while roots:
        name = roots.pop()
        if name not in reached:
            reached.add(name)
            roots += {
                part for each in imported(name) for part in _with_parents(each)
            } & modules().keys()
    assert modules().keys() - reached == {name for name in ALLOWED if name in modules()}


def defined() -> Iterator[tuple[str, str, ast.AST]]:
    """Module, name and node of every public function, class, method and constant."""
    for module, tree in modules().items():
        for node in tree.body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef):
                yield module, node.name, node
            elif isinstance(node, ast.Assign | ast.AnnAssign):
                for target in node.targets if isinstance(node, ast.Assign) else [node.target]:
                    for part in ast.walk(target):
                        if isinstance(part, ast.Name):
                            yield module, part.id, node
            if isinstance(node, ast.ClassDef):
                yield from (
                    (module, method.name, method)
                    for method in node.body
                    if isinstance(method, ast.FunctionDef) and not _is_validator(method)
                )


def _is_validator(method: ast.FunctionDef) -> bool:
    return any("validator" in ast.unparse(decorator) for decorator in method.decorator_list)


def read(tree: ast.AST) -> Counter[str]:
    """Plain names that are read in a tree."""
    return Counter(
        node.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load)
    )


def reached(tree: ast.AST) -> Counter[str]:
    """What can reach into another module or object: attributes, and words that stand alone in quotes."""
    found: Counter[str] = Counter()
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            found[node.attr] += 1
        elif (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and node.value.isidentifier()
        ):
            found[node.value] += 1
    return found


def test_nothing_public_is_used_by_tests_alone() -> None:
    names = {module: read(tree) for module, tree in modules().items()}
    anywhere = sum((reached(tree) for tree in modules().values()), Counter())
    imports = {each for module in modules() for each in imported(module)}
    elsewhere = {
        word
        for path in [*PACKAGE.rglob("*.jinja"), ROOT / "mkdocs.yml", ROOT / "pyproject.toml"]
        for word in re.findall(r"\w+", path.read_text(encoding="utf-8"))
    }
    found = [
        (module, name, node)
        for module, name, node in defined()
        if module not in ALLOWED
        and not name.startswith(("__", *CALLED_BY_LIBRARIES.get(module, ())))
    ]
    unused = [
        f"{module}.{name}"
        for module, name, node in found
        if names[module][name] == read(node)[name]
        and anywhere[name] == reached(node)[name]
        and f"{module}.{name}" not in imports
        and name not in elsewhere
    ]
    assert sorted(unused) == sorted(name for name in ALLOWED if name not in modules())
