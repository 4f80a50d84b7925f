"""How a new site takes the place of the last one: made in a folder beside it, and moved when it is whole.

A build that is killed, fails or finds no room leaves the last site as it was. One build at a time: a second one is refused, with words.
"""

from __future__ import annotations

import errno
import logging
import os
import shutil
import sys
from contextlib import suppress
from pathlib import Path
from typing import IO

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl


class UnwritableSite(Exception):
    """The site cannot be written; the message says why and what to do."""


class SitePlace:
    """The folder of one site while one build makes it anew."""

    def __init__(self, site: Path) -> None:
        self.site = Path(os.path.realpath(site))  # of a link, what it leads to
        self._work = self.site.with_name(f".{self.site.name}.build")
        self._lock: IO[str] | None = None

    @property
    def new(self) -> Path:
        """Where the build writes."""
        return self._work / "new"

    def take(self) -> bool:
        """Take the place until ``leave``. False where the folder can only be written as it stands (a mount, say): then the build must.

        Raises ``UnwritableSite`` when another build has it, or nothing can be written."""
        if os.path.ismount(self.site):
            return False
        if self.site.exists() and not self.site.is_dir():
            raise UnwritableSite(
                f"{self.site} is a file; take it away, or build elsewhere (--site-dir)"
            )
        if self.site.exists() and not os.access(self.site, os.W_OK | os.X_OK):
            raise UnwritableSite(told(OSError(errno.EACCES, "", str(self.site))))
        try:
            self.site.parent.mkdir(parents=True, exist_ok=True)
            self._lock = self._open()
        except OSError as error:
            if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS) and self.site.is_dir():
                return False  # the folder itself can be written, the one around it cannot
            raise UnwritableSite(told(error)) from error
        if self._lock is None:
            raise UnwritableSite(
                f"another build is writing {self.site}; wait until it ends, then build again"
            )
        self._recover()
        if (self._work / "old").exists():
            self.leave()
            raise UnwritableSite(told(OSError(errno.EACCES, "", str(self._work / "old"))))
        return True

    def put(self) -> None:
        """The new site stands, and the last one is gone. Raises ``OSError``."""
        old = self._work / "old"
        if self.site.exists():
            for hidden in self.site.glob(".*"):  # no part of a site: a publishing branch, say
                if not (self.new / hidden.name).exists():
                    hidden.rename(self.new / hidden.name)
            self.site.rename(old)
        try:
            self.new.rename(self.site)
        except OSError:
            if old.exists():
                old.rename(self.site)
            raise

    def is_to_blame(self, error: OSError) -> bool:
        """Whether an error is of this folder or its disk, and not of anything that a page is made from."""
        full = error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EROFS)
        at = str(error.filename or "")
        return full or at.startswith((str(self._work), str(self.site)))

    def leave(self) -> None:
        """Give the place up; what was not put is gone."""
        if self._lock is None:
            return
        for name in ("new", "old"):
            _remove(self._work / name)
        if sys.platform == "win32":  # which lets nobody take an open file away
            self._lock.close()
        with suppress(OSError):
            (self._work / "lock").unlink()
            self._work.rmdir()
        self._lock.close()
        self._lock = None

    def _open(self) -> IO[str] | None:
        """The lock, ours; None while another build has it. Raises ``OSError``."""
        while True:
            self._work.mkdir(exist_ok=True)
            try:
                file = (self._work / "lock").open("w")
            except FileNotFoundError:  # another build has just ended
                continue
            if not _lock(file):
                file.close()
                return None
            try:
                if os.path.samestat(os.fstat(file.fileno()), os.stat(self._work / "lock")):
                    return file
            except FileNotFoundError:  # ended between the two: nobody else sees this one
                pass
            file.close()

    def _recover(self) -> None:
        """What a killed build left: the last site, where it was killed between two moves; all else goes."""
        old = self._work / "old"
        if old.exists() and not self.site.exists():
            old.rename(self.site)
        for name in ("new", "old"):
            _remove(self._work / name)


class WarningsCame(logging.Handler):
    """Whether a warning was logged; a strict build ends with it after everything is written."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.any = False

    def emit(self, record: logging.LogRecord) -> None:
        """Note one."""
        self.any = True


def told(error: OSError) -> str:
    """What went wrong with a file, and what to do."""
    at = f" ({error.filename})" if error.filename else ""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"there is no room left on the disk{at}; make some, then build again"
    if error.errno == errno.EROFS:
        return f"the disk can only be read{at}; build elsewhere (--site-dir)"
    if error.errno in (errno.EACCES, errno.EPERM):
        return (
            f"this folder cannot be written{at}; give yourself the right to (chmod -R u+w), "
            "close programs that have its files open, or build elsewhere (--site-dir)"
        )
    return f"{error.strerror or error}{at}"


def _remove(folder: Path) -> None:
    """Take a folder away, those in it that may only be read among the rest; what is left belongs to somebody else."""
    shutil.rmtree(folder, ignore_errors=True)
    for at, folders, files in os.walk(folder):
        for path in (Path(at, name) for name in (*folders, *files)):  # on Windows files, too
            if not path.is_symlink():
                with suppress(OSError):
                    path.chmod(0o700)
    shutil.rmtree(folder, ignore_errors=True)


def _lock(file: IO[str]) -> bool:
    """Whether it is ours now. The system frees it when this process ends, however it does."""
    try:
        if sys.platform == "win32":
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
