"""Paths as a code host wants them: from the top of the repository, wherever the check was started."""

from __future__ import annotations

import os


def in_repository(file: str) -> str:
    """``file`` (relative to where the check stands) relative to the checked-out repository, with forward slashes.

    Under GitHub Actions ``GITHUB_WORKSPACE`` names the repository; elsewhere, and
    for a file outside it, the path stays as it is.
    """
    workspace = os.environ.get("GITHUB_WORKSPACE")
    if not workspace:
        return file
    try:
        inside = os.path.relpath(os.path.abspath(file), workspace).replace(os.sep, "/")
    except ValueError:  # another drive on Windows
        return file
    return file if inside.startswith("../") else inside
