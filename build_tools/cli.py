"""The ``handbook`` command: finds the subcommand, runs it, and ends quietly when interrupted.

Only the subcommand that was asked for is imported, so each starts fast.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from . import collector
from .catalog.invocation import called, typed
from .commands import COMMANDS, COULD_NOT_RUN, CannotRun

#: What a shell reports for a program ended by SIGINT or SIGPIPE.
_INTERRUPTED, _PIPE_CLOSED = 130, 141


def main(argv: Sequence[str] | None = None) -> int:
    """Run ``handbook`` with ``argv`` (default: the program's arguments) and answer the exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # A terminal without UTF-8 gets escapes instead of a crash.
            stream.reconfigure(errors="backslashreplace")
    collector.spare()
    try:
        try:
            status = _dispatch(sys.argv[1:] if argv is None else list(argv))
        except SystemExit as end:  # argparse's way out, after --help or bad flags
            status = int(end.code or 0)
        sys.stdout.flush()
        return status
    except CannotRun as error:
        print(f"handbook: {typed(str(error))}", file=sys.stderr)
        return COULD_NOT_RUN
    except BrokenPipeError:
        # The reader went away (`| head`). Python flushes once more at exit; give it somewhere to go.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return _PIPE_CLOSED
    except KeyboardInterrupt:
        return _INTERRUPTED
    except Exception:
        # Never 1, which would read as "something to mend in the catalog".
        import traceback

        traceback.print_exc()
        print(
            "handbook: internal error; this is a fault of the program, please report the lines above",
            file=sys.stderr,
        )
        return COULD_NOT_RUN


class _Version(argparse.Action):
    """Prints the version, which pyproject.toml alone states; it is imported and looked up only when asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        from importlib.metadata import version

        print(f"handbook {version('evidence-handbook')}")
        parser.exit()


def _dispatch(argv: list[str]) -> int:
    width, program = max(map(len, COMMANDS)), called("handbook")
    listed = "\n".join(f"  {name.ljust(width)}  {line}" for name, line in COMMANDS.items())
    top = argparse.ArgumentParser(
        prog=program,
        description="Keeps an evidence handbook for strength coaches sound.",
        epilog=f"commands:\n{listed}\n\n`{program} COMMAND --help` explains one of them.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        usage=f"{program} [-h] [--version] COMMAND ...",
    )
    top.add_argument(
        "--version", action=_Version, nargs=0, help="show the program's version and exit"
    )
    top.add_argument("command", metavar="COMMAND", help="what to do, see below")
    # Everything after the command's name is the command's own business.
    name = top.parse_args(argv[:1]).command
    if name not in COMMANDS:
        from .catalog.complaints import did_you_mean

        top.error(
            f"there is no command `{name}`; {did_you_mean(name, list(COMMANDS)) or 'commands: ' + ', '.join(COMMANDS)}"
        )
    module = import_module(f".commands.{name.replace('-', '_')}", __package__)
    parser = argparse.ArgumentParser(
        prog=f"{program} {name}",
        description=typed(module.__doc__ or ""),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    module.add_arguments(parser)
    status: int = module.run(parser.parse_args(argv[1:]))
    return status


if __name__ == "__main__":
    sys.exit(main())
