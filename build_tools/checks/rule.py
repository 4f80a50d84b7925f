"""The contract of a rule, and the list of all rules.

A rule is a module in ``build_tools.checks.rules``. Its id is the module's name
with hyphens, its docstring is its manual (see ``build_tools.checks.manuals.manual``), and
its ``check`` yields problems. How severe a problem is stands in the profile, not
in the rule.
"""

from __future__ import annotations

import difflib
import importlib
import pkgutil
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from types import ModuleType
from typing import Any, NamedTuple

from build_tools.catalog.bibliography.references import WHOLE_FILE
from build_tools.catalog.complaints import did_you_mean
from build_tools.catalog.entries import Claim
from build_tools.catalog.finding import Spot
from build_tools.catalog.load import Catalog, Loaded
from build_tools.catalog.walk import Path, Statement, statements, written_texts

from . import rules
from .names import plain


class Problem(NamedTuple):
    """One thing to mend: where it stands, what is wrong, and what to write instead."""

    spot: Spot
    message: str
    help: str


@dataclass(frozen=True)
class Context:
    """What rules look at: the catalog, the day of the check, and lists that several rules need."""

    catalog: Catalog
    today: date

    def is_absent(self, kind: str, id: str) -> bool:
        """Whether nobody wrote this entry; never while the folder or file that may hold it cannot be read."""
        whole = WHOLE_FILE if kind == "references" else kind
        return not self.catalog.exists(kind, id) and (kind, whole) not in self.catalog.broken

    @cached_property
    def statements(self) -> list[Statement]:
        """Everything in the catalog that needs a basis, in file order."""
        return list(statements(self.catalog))

    @cached_property
    def texts(self) -> list[tuple[Loaded[Any], Path, str]]:
        """Every text that was written to be read, with its entry and the path to it; ids too, addresses not."""
        return list(written_texts(self.catalog))

    @cached_property
    def claims(self) -> list[tuple[Statement, Claim]]:
        """Every emphasis claim, with where it stands."""
        return [
            (statement, statement.basis)
            for statement in self.statements
            if isinstance(statement.basis, Claim)
        ]

    @cached_property
    def outcomes(self) -> dict[str, str]:
        """Measure id -> the outcome it can speak for; empty while the vocabulary cannot be read."""
        vocabulary = self.catalog.vocabulary
        return (
            {id: measure.outcome for id, measure in vocabulary.data.measures.items()}
            if vocabulary
            else {}
        )


def suggest(
    word: str, known: Iterable[str], otherwise: str, called: Iterable[tuple[str, str]] = ()
) -> str:
    """Help for an unknown word: the known one that is ``called`` so (name, id), else the nearest, else ``otherwise``."""
    names = {plain(name): (name, id) for name, id in called}
    if found := names.get(plain(word)):
        return f"did you mean `{found[1]}`? It is also called {found[0]}"
    near = did_you_mean(word, sorted(known))
    if near is None and (
        name := difflib.get_close_matches(plain(word), sorted(names), n=1, cutoff=0.75)
    ):
        return f"did you mean `{names[name[0]][1]}`? It is also called {names[name[0]][0]}"
    return near or otherwise


def all_rules() -> dict[str, ModuleType]:
    """Every rule module by its id, sorted by id."""
    names = sorted(module.name for module in pkgutil.iter_modules(rules.__path__))
    return {
        name.replace("_", "-"): importlib.import_module(f"{rules.__name__}.{name}")
        for name in names
    }
