"""The first files of another team's own handbook.

What a team must say itself stands in ``starter/``. What is the same everywhere (closed lists, conventions, ranges of doses, a muscle) is
taken from the catalog that this engine comes with, so that it stands once; a wheel carries those files along (``pyproject.toml``).
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from datetime import date
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit
from urllib.request import url2pathname

DISTRIBUTION = "evidence-handbook"
_STARTER = Path(__file__).parent / "starter"
#: Where a wheel keeps the files that are taken over, and where a checkout has them.
_CATALOGS = (_STARTER / "shared", Path(__file__).parents[2] / "catalog")
#: Names that begin with a dot stand without it in the package.
_DOTTED = {"gitignore", "gitattributes", "github"}
#: Taken over as they stand, but for what speaks of entries that only the whole catalog has.
_SHARED: dict[str, tuple[tuple[str, ...], ...]] = {
    "vocabulary.yaml": (),
    "muscles/calf.yaml": (),
    "programme.yaml": (
        ("goals", "growth", "weekly_sets", "muscles"),
        ("load_prediction", "equations", "reynolds-bench-press"),
        ("load_prediction", "equations", "reynolds-leg-press"),
    ),
    "handbook.yaml": (("conventions", "exercises_per_part"),),
}
#: What the conventions say of the catalog that they were found in.
_OF_CATALOG = (
    ("this catalog's", "the engine's first catalog's"),
    ("in this catalog", "in the engine's first catalog"),
    ("in the catalog", "in the engine's first catalog"),
)
_PALETTE = """\
# Links, buttons and marks; cue sheets, handouts and drawings follow. A check holds that they can be read.
palette:
  light: "#8a2f55"
  dark: "#efa9c6"
"""


class UnbuiltWheel(RuntimeError):
    """The engine's wheel could not be made; the message is what pip says."""


class Named(NamedTuple):
    """What a team says of its handbook."""

    title: str
    owner: str
    licence: str
    tagline: str
    url: str


class Installable(NamedTuple):
    """What installs the engine: the line of requirements.txt, and the wheel that it names, to be kept beside it.

    Of an engine that runs from its repository's folder, ``source``, there is no such line before its wheel is ``built``.
    """

    requirement: str
    wheel: Path | None = None
    source: Path | None = None


def files(named: Named, engine: Installable, today: date) -> dict[str, bytes]:
    """Path -> content of every file that a person may edit. Raises ``OSError``."""
    made = {path: _filled(text, named, today) for path, text in _own()}
    made |= {f"catalog/{path}": _taken(path) for path in _SHARED}
    made["catalog/handbook.yaml"] = _renamed(made["catalog/handbook.yaml"], named)
    made["catalog/references.bib"] = _cited("\n".join(made.values()))
    made["requirements.txt"] = f"# The engine. Name a newer one here.\n{engine.requirement}\n"
    found = {path: text.encode() for path, text in made.items()}
    if engine.wheel:
        found[f"engine/{engine.wheel.name}"] = engine.wheel.read_bytes()
    return found


def installed() -> Installable:
    """The engine that runs, as pip can install it again: from where it came (PEP 610), or by its version."""
    try:
        found = distribution(DISTRIBUTION)
    except PackageNotFoundError:
        return Installable(DISTRIBUTION)
    origin = json.loads(found.read_text("direct_url.json") or "{}")
    address = origin.get("url", "")
    named = given(address)
    if "dir_info" in origin and (source := _file(address)).is_dir():
        return Installable(f"{DISTRIBUTION}=={found.version}", source=source)
    if vcs := origin.get("vcs_info"):
        return Installable(f"{DISTRIBUTION} @ {vcs['vcs']}+{origin['url']}@{vcs['commit_id']}")
    return named or Installable(f"{DISTRIBUTION}=={found.version}")


def given(origin: str) -> Installable | None:
    """The engine at an address, or in a wheel's file that is there; None where there is neither."""
    parts = urlsplit(origin)
    if parts.scheme in ("http", "https") or parts.scheme.startswith("git+"):
        return Installable(f"{DISTRIBUTION} @ {origin}")
    path = _file(origin) if parts.scheme == "file" else Path(origin)
    if path.suffix == ".whl" and path.is_file():
        return Installable(f"./engine/{path.name}", path)
    return None


def built(source: Path, into: Path) -> Installable:
    """The wheel of the engine whose repository is ``source``, made in the folder ``into``. Raises ``UnbuiltWheel``."""
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check"]
    command += ["--no-deps", "--no-build-isolation", "--wheel-dir", str(into), str(source)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", errors="replace")
    wheel = next(iter(sorted(into.glob("*.whl"))), None)
    if done.returncode or wheel is None:
        said = done.stderr.strip().splitlines() or ["pip made none"]
        raise UnbuiltWheel(said[-1])
    return Installable(f"./engine/{wheel.name}", wheel)


def _file(address: str) -> Path:
    return Path(url2pathname(unquote(urlsplit(address).path)))


def _own() -> Iterator[tuple[str, str]]:
    for path in sorted(_STARTER.rglob("*")):
        parts = path.relative_to(_STARTER).parts
        if path.is_file() and parts[0] != "shared":
            first = f".{parts[0]}" if parts[0] in _DOTTED else parts[0]
            yield "/".join((first, *parts[1:])), path.read_text(encoding="utf-8")


def _filled(text: str, named: Named, today: date) -> str:
    """The places that the words of a team belong to; a workflow's ``${{`` is none."""
    words = {
        "title": _quoted(named.title),
        "name": named.title,
        "owner": named.owner,
        "licence": named.licence,
        "url": _quoted(named.url),
        "today": today.isoformat(),
    }
    return re.sub(r"(?<!\{)\{(\w+)\}(?!\})", lambda place: words.get(place[1], place[0]), text)


def _taken(path: str) -> str:
    text = _shared(path)
    for place in _SHARED[path]:
        text = _without(text, place)
    return text


def _shared(path: str) -> str:
    folder = next(folder for folder in _CATALOGS if (folder / path).is_file())
    return (folder / path).read_text(encoding="utf-8")


def _without(text: str, place: tuple[str, ...]) -> str:
    """YAML in blocks without the key at ``place`` and all below it."""
    lines = text.splitlines(keepends=True)
    start, end = 0, len(lines)
    for depth, key in enumerate(place):
        head = re.compile(rf"{'  ' * depth}{re.escape(key)}:")
        start = next(n for n in range(start, end) if head.match(lines[n]))
        deeper = "  " * (depth + 1)
        after = (n for n in range(start + 1, end) if not lines[n].startswith((deeper, "\n")))
        end, start = next(after, end), start + 1
    return "".join(lines[: start - 1] + lines[end:])


def _renamed(text: str, named: Named) -> str:
    """handbook.yaml with the team's own head and colours."""
    for key, value in (
        ("title", _quoted(named.title)),
        ("tagline", _quoted(named.tagline)),
        ("owner", f"{{name: {_quoted(named.owner)}}}"),
        ("licence", _quoted(named.licence)),
    ):
        text = re.sub(rf"^{key}: .*$", f"{key}: {value}".replace("\\", r"\\"), text, flags=re.M)
    text = text.replace("notice:\n", f"{_PALETTE}notice:\n", 1)
    for said, instead in _OF_CATALOG:
        text = text.replace(said, instead)
    return text


def _cited(texts: str) -> str:
    """The records that are cited, in the order of their keys."""
    keys = sorted(set(re.findall(r"\bkey: (\w+)", texts)))
    records = dict(
        (found[1], found[0])
        for found in re.finditer(r"^@\w+\{(\w+),\n(?:.*\n)*?\}\n", _shared("references.bib"), re.M)
    )
    return "\n".join(records[key] for key in keys)


def _quoted(text: str) -> str:
    """A text as YAML reads it, whatever it holds."""
    return json.dumps(text, ensure_ascii=False)
