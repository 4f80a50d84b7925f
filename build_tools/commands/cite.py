"""Add a record to catalog/references.bib from another program's export.

FILE is BibTeX, RIS, PubMed format (.nbib) or CSL-JSON; - reads standard input.
Each record gets a free key, loses abstract and keywords, and goes to its place.
A work that is there already is not added again: the command says under which key
it stands. Works without a network; --doi asks the registry of DOIs instead.

After it, say where the record was read (readat), and write the study:
`handbook new study KEY`.

Exit status: 0 added, 1 something was not added, 2 it could not run.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from build_tools.catalog.invocation import typed

from . import CLEAN, FINDINGS, CannotRun, reporting


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_catalog(parser)
    source = parser.add_mutually_exclusive_group(required=True)
    source.add_argument("file", nargs="?", metavar="FILE", help="the export; - for standard input")
    source.add_argument("--doi", metavar="DOI", help="ask for the record of a DOI; needs a network")
    parser.add_argument("--key", help="the key, for one record (default: family name and year)")
    parser.add_argument(
        "--section", help="words of the heading below which it goes (default: the last one)"
    )
    parser.add_argument("--dry-run", action="store_true", help="show the records, write nothing")


def run(args: argparse.Namespace) -> int:
    """Add what is new, say what is not, and answer the exit status."""
    from build_tools.authoring import bibliography, doi, exports
    from build_tools.catalog.bibliography.references import read_records
    from build_tools.committed import whole

    path = args.catalog / "references.bib"
    try:
        exported = exports.read(*_export(args))
        text = path.read_text(encoding="utf-8") if path.exists() else ""
    except (exports.UnreadableExport, doi.NoRecord) as error:
        raise CannotRun(": ".join(error.args)) from None
    except (OSError, UnicodeDecodeError) as error:
        raise CannotRun(f"it cannot be read: {error}") from None
    references, findings, _ = read_records(text, path.name)
    if findings:
        first = findings[0]
        raise CannotRun(
            f"{path}:{first.spot.line}: {first.message}; mend references.bib first (`handbook check`)"
        )
    if args.key and len(exported) > 1:
        raise CannotRun(f"the export holds {len(exported)} records; --key names only one")
    status = CLEAN
    for record in exported:
        title = record.fields.get("title", "a record without a title")
        there = next(iter(bibliography.already_there(record, references)), None)
        if there:
            print(f"not added: {title}\n  `{there[0]}` {there[1]}")
            status = FINDINGS
            continue
        key = args.key or bibliography.free_key(record, references)
        made = bibliography.written(record, key)
        new, wrong, _ = read_records(made, path.name)
        if key in references or wrong:
            why = f"the key `{key}` is taken" if key in references else wrong[0].message
            help = "choose another with --key" if key in references else wrong[0].help
            print(f"not added: {title}\n  {why}\n  help: {help}")
            status = FINDINGS
            continue
        try:
            text = bibliography.placed(text, made, key, args.section)
        except LookupError as error:
            raise CannotRun(str(error.args[0])) from None
        references = {**references, **new}
        print(made, end="")
        for lack in record.unknown:
            print(f"note: {lack}")
        told = "next: say in `readat` where it was read; then `handbook new study KEY`"
        print(typed(told.replace("KEY", key)))
    if not args.dry_run:
        try:
            whole.put(path, text)
        except OSError as error:
            raise CannotRun(f"references.bib cannot be written: {error}") from None
    return status


def _export(args: argparse.Namespace) -> tuple[str, str]:
    """The text of the export, and its file's name."""
    from build_tools.authoring import doi

    if args.doi:
        return doi.fetch(args.doi), ""
    if args.file == "-":
        return sys.stdin.read(), ""
    file = Path(args.file)
    return file.read_text(encoding="utf-8"), file.name
