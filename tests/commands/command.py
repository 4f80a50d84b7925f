"""The `handbook` command, and a slip for it to find."""

import sys

COMMAND = [sys.executable, "-m", "build_tools.cli"]


def break_swap(catalog):
    path = catalog / "exercises" / "cable-curl.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("swaps: [crate-curl]", "swaps: [crate-crul]"),
        encoding="utf-8",
    )
