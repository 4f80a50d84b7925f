"""Build the site with other packages than the locked ones, and tell which pages differ.

``oldest``: the lowest version that pyproject.toml allows of each package it names. ``fork``: the locked packages, built by ProperDocs, the
drop-in fork of MkDocs 1.x. Everything is made in ``.venv``, beside the locked packages that are compared with.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tomllib
from pathlib import Path

from . import pages

ROOT = Path(__file__).parents[2]
ROOM = ROOT / ".venv" / "lasting"
#: The fork's releases that read MkDocs' settings and plugins as they are.
FORK = "properdocs>=1.6.5,<2"

KINDS = ("oldest", "fork")


def main() -> int:
    parser = argparse.ArgumentParser(prog="make lasting", description=__doc__)
    parser.add_argument("what", nargs="?", choices=KINDS, help="both, if it is left out")
    given = parser.parse_args().what
    locked = build(Path(sys.executable), "mkdocs", "locked")
    failed = False
    for what in [given] if given else KINDS:
        made = build(furnished(what), "properdocs" if what == "fork" else "mkdocs", what)
        found = pages.different(locked, made)
        failed = failed or bool(found)
        told = f"{len(found)} differ: {', '.join(found[:10])}" if found else "all the same"
        print(f"{what}: {len(pages.files(locked))} files, {told}")
    return failed


def furnished(what: str) -> Path:
    """The Python of an environment with these packages."""
    folder = ROOM / f"{what}-packages"
    run(sys.executable, "-m", "venv", "--clear", folder)
    python = folder / ("Scripts" if os.name == "nt" else "bin") / "python"
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = (
        pages.lowest(project["project"]["dependencies"])
        if what == "oldest"
        else ["--requirement", str(ROOT / ".ci" / "locked" / "site.txt")]
    )
    pip = (python, "-m", "pip", "install", "--quiet")
    run(*pip, *wanted)
    run(*pip, *project["dependency-groups"]["build"], *([FORK] if what == "fork" else []))
    run(*pip, "--no-deps", "--no-build-isolation", "--editable", ROOT)
    return python


def build(python: Path, generator: str, name: str) -> Path:
    """The site that a generator makes, with all that an address adds."""
    site = ROOM / name
    told = {"NO_MKDOCS_2_WARNING": "1", "SOURCE_DATE_EPOCH": "1796083200"}
    surroundings = {**os.environ, **told, "SITE_URL": "https://handbook.example/"}
    run(
        python,
        "-m",
        generator,
        "build",
        "--quiet",
        "--strict",
        "--site-dir",
        site,
        env=surroundings,
    )
    return site


def run(*command: object, env: dict[str, str] | None = None) -> None:
    subprocess.run([str(word) for word in command], check=True, cwd=ROOT, env=env)


if __name__ == "__main__":
    sys.exit(main())
