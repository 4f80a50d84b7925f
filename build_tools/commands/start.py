"""Begin a handbook of your own in a new or empty folder.

Writes settings, a home page, closed lists, three example exercises with their
muscle, workflows and a README; concludes, and lists the addresses, so that the
handbook builds at once. A folder may hold .git and nothing else. Everything is
written, or nothing is.

requirements.txt names the engine as it was installed here; a wheel's file is
copied to engine/, and of an engine that runs from its repository a wheel is built
there. --engine names another one.

Exit status: 0 written, 2 it could not run.
"""

from __future__ import annotations

import argparse
import json
import shutil
import tempfile
from pathlib import Path

from build_tools.checks.reports import visible

from . import CLEAN, CannotRun

_BUILDING = ".handbook-start-"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, metavar="DIR", help="a new or empty folder")
    parser.add_argument("--title", help="title of the handbook (default: the folder's name)")
    parser.add_argument(
        "--owner",
        default="The handbook's maintainers",
        help="who publishes it (default: %(default)s)",
    )
    parser.add_argument(
        "--licence", default="CC BY 4.0", help="licence of its text (default: %(default)s)"
    )
    parser.add_argument(
        "--tagline",
        default="Which exercise for which part of a muscle, and how to coach it.",
        help="what it is for, in one sentence (default: %(default)s)",
    )
    parser.add_argument(
        "--url", default="", metavar="ADDRESS", help="where it will be published, if you know"
    )
    parser.add_argument(
        "--engine",
        metavar="WHEEL",
        help="the engine's wheel, as a file or an address (default: the one that runs)",
    )


def run(args: argparse.Namespace) -> int:
    """Write the handbook to ``args.folder`` and say what comes next."""
    from build_tools import clock
    from build_tools.authoring import own_handbook
    from build_tools.english import upper_first

    folder: Path = args.folder
    name = visible(str(folder))
    held = sorted(path.name for path in folder.iterdir()) if folder.is_dir() else []
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise CannotRun(f"`{name}` is no folder; name a new one")
    if held not in ([], [".git"]):
        raise CannotRun(
            f"`{name}` holds {visible(next(one for one in held if one != '.git'))}; name a new or empty folder"
        )
    engine = own_handbook.given(args.engine) if args.engine else own_handbook.installed()
    if engine is None:
        raise CannotRun(
            f"--engine: there is no wheel `{visible(args.engine)}`; name a .whl file or its https address"
        )
    title = args.title or upper_first(folder.resolve().name.replace("-", " ").replace("_", " "))
    named = own_handbook.Named(title, args.owner, args.licence, args.tagline, args.url)
    new = not folder.exists()
    moved: list[Path] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with (
            tempfile.TemporaryDirectory(prefix=_BUILDING, dir=folder) as building,
            tempfile.TemporaryDirectory() as wheels,
        ):
            if engine.source:
                engine = own_handbook.built(engine.source, Path(wheels))
            _build(Path(building), own_handbook.files(named, engine, clock.today()))
            for path in sorted(Path(building).iterdir()):
                moved.append(Path(shutil.move(path, folder / path.name)))
    except BaseException as error:
        for path in moved:
            shutil.rmtree(path) if path.is_dir() else path.unlink()
        if new and folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
        if isinstance(error, OSError):
            raise CannotRun(f"`{name}` cannot be written: {error}") from None
        if isinstance(error, own_handbook.UnbuiltWheel):
            raise CannotRun(
                f"the engine's wheel cannot be built from its repository ({visible(str(error))}); name one that is there: --engine WHEEL"
            ) from None
        raise
    there = "" if folder.resolve() == Path.cwd() else f"  cd {name}\n"
    print(
        f"{title} stands in {name}. Its README says what to write first. Next:\n"
        f"{there}  python -m pip install -r requirements.txt\n  python -m mkdocs serve"
    )
    return CLEAN


def _build(root: Path, files: dict[str, bytes]) -> None:
    """Write the files below ``root`` and what is made of them. Raises ``CannotRun`` where a word that was given does not fit."""
    from build_tools import pipeline
    from build_tools.authoring import schemas
    from build_tools.committed import addresses, moves, record
    from build_tools.committed import files as committed
    from build_tools.site import hand_written
    from build_tools.site.book import answering

    for path, content in files.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    opened = pipeline.open_catalog(root / "catalog", "catalog")
    checked = pipeline.run(opened)
    if checked.conclusions is None or checked.errors:
        finding = checked.errors[0].finding
        raise CannotRun(
            f"{finding.spot.file}:{finding.spot.line}: {finding.message}; {finding.help}; nothing was written"
        )
    catalog = checked.catalog
    committed.write(committed.files(checked.conclusions, catalog), catalog.root)
    record.add(catalog, moves.Moves([], [], []), opened.today)
    schemas.write(catalog, catalog.root / schemas.FOLDER)
    settings = root / ".vscode" / "settings.json"
    settings.parent.mkdir()
    told = schemas.settings(f"catalog/{schemas.FOLDER}", "catalog")
    settings.write_text(json.dumps(told, indent=2) + "\n", encoding="utf-8", newline="\n")
    addresses.add(catalog, answering(catalog, hand_written.pages(root / "content")))
