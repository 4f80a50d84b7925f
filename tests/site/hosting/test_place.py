"""How a new site takes the place of the last one: real builds of the demo, killed, failing, two at once, without room.

The judge is the folder itself: what stood before, or all of the new site.
"""

from __future__ import annotations

import errno
import os
import shutil
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest
from folders import DEMO
from mkdocs.exceptions import Abort
from site_building import build, configuration

from build_tools.site.hosting import place
from build_tools.site.hosting.place import SitePlace, UnwritableSite, told


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def old_site(folder: Path) -> Path:
    site = folder / "site"
    site.mkdir()
    (site / "index.html").write_text("old")
    return site


def start(config: Path) -> subprocess.Popen[str]:
    """`mkdocs build --strict`, the documented way without make."""
    return subprocess.Popen(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "-f", str(config)],
        cwd=config.parent,
        env={**os.environ, "SOURCE_DATE_EPOCH": "1796083200"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )


def wait_for(path: Path, process: subprocess.Popen[str]) -> None:
    until = time.monotonic() + 120
    while not path.exists():
        assert process.poll() is None and time.monotonic() < until, process.communicate()
        time.sleep(0.01)


# --- the folder --------------------------------------------------------------


def test_a_new_site_takes_the_place_of_the_last_and_leaves_nothing_beside_it(
    tmp_path: Path,
) -> None:
    site = old_site(tmp_path)
    (site / ".git").write_text("gitdir: elsewhere")  # MkDocs lets hidden files stand, too
    taken = SitePlace(site)
    assert taken.take()
    taken.new.mkdir()
    (taken.new / "new.html").write_text("new")
    assert (site / "index.html").read_text() == "old"
    taken.put()
    taken.leave()
    assert names(tmp_path) == {"site/new.html", "site/.git"}


def refusing(monkeypatch: pytest.MonkeyPatch) -> None:
    """A system that takes nothing out of folders which can only be read (POSIX, unlink: EACCES), as the superuser's does not."""
    remove = shutil.rmtree

    def refuse(folder: Path, ignore_errors: bool) -> None:
        locked = [at for at, _, _ in os.walk(folder) if not os.stat(at).st_mode & stat.S_IWUSR]
        if not locked:
            remove(folder, ignore_errors=ignore_errors)

    monkeypatch.setattr(place.shutil, "rmtree", refuse)


def replaced(site: Path) -> None:
    """One build."""
    taken = SitePlace(site)
    assert taken.take()
    taken.new.mkdir()
    (taken.new / "new.html").write_text("new")
    taken.put()
    taken.leave()


@pytest.mark.skipif(os.name == "nt", reason="folders are not made unwritable so there")
def test_a_folder_of_the_last_site_that_can_only_be_read_stops_no_later_build(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = old_site(tmp_path)
    (site / "deep").mkdir()
    (site / "deep" / "old.html").write_text("old")
    (site / "deep").chmod(0o555)
    refusing(monkeypatch)
    replaced(site)
    replaced(site)
    assert names(tmp_path) == {"site/new.html"} and not (tmp_path / ".site.build").exists()


def test_what_a_build_left_and_nobody_may_take_away_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = old_site(tmp_path)
    (tmp_path / ".site.build" / "old").mkdir(parents=True)
    monkeypatch.setattr(place.shutil, "rmtree", lambda *args, **more: None)
    with pytest.raises(
        UnwritableSite, match=r"cannot be written \(.*old\); give yourself the right"
    ):
        SitePlace(site).take()
    assert names(site) == {"index.html"}


def test_what_is_not_put_is_gone(tmp_path: Path) -> None:
    site = old_site(tmp_path)
    taken = SitePlace(site)
    taken.take()
    taken.new.mkdir()
    taken.leave()
    assert names(tmp_path) == {"site/index.html"}
    taken.leave()  # once is enough


def test_a_second_build_is_refused_while_the_first_goes_on(tmp_path: Path) -> None:
    first, second = SitePlace(tmp_path / "site"), SitePlace(tmp_path / "site")
    assert first.take()
    with pytest.raises(UnwritableSite, match="another build is writing .* wait until it ends"):
        second.take()
    first.leave()
    assert second.take()
    second.leave()


def test_what_a_killed_build_left_is_mended(tmp_path: Path) -> None:
    """Killed between its two moves, then at any other time."""
    site = old_site(tmp_path)
    work = tmp_path / ".site.build"
    for leaves_no_site in (True, False):
        (work / "new").mkdir(parents=True)
        (work / "new" / "half.html").write_text("half")
        if leaves_no_site:
            site.rename(work / "old")
        taken = SitePlace(site)
        assert taken.take() and not taken.new.exists()
        assert (site / "index.html").read_text() == "old"
        taken.leave()
        assert names(tmp_path) == {"site/index.html"}


def test_a_failed_move_brings_the_last_site_back(tmp_path: Path) -> None:
    site = old_site(tmp_path)
    taken = SitePlace(site)
    taken.take()
    with pytest.raises(OSError):
        taken.put()  # nothing was made
    taken.leave()
    assert names(tmp_path) == {"site/index.html"}


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    site = old_site(tmp_path / "elsewhere")
    (tmp_path / "link").symlink_to(site)
    taken = SitePlace(tmp_path / "link")
    taken.take()
    taken.new.mkdir()
    (taken.new / "new.html").write_text("new")
    taken.put()
    taken.leave()
    assert (tmp_path / "link").is_symlink() and names(site) == {"new.html"}


def test_a_mount_is_written_as_it_stands(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os.path, "ismount", lambda path: True)
    assert not SitePlace(old_site(tmp_path)).take()
    assert names(tmp_path) == {"site/index.html"}


def test_a_folder_that_cannot_be_written_is_refused_before_anything_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The superuser may write everywhere, so the system's answer is taken away."""
    site = old_site(tmp_path)
    monkeypatch.setattr(place.os, "access", lambda *args: False)
    with pytest.raises(UnwritableSite, match=r"cannot be written .*chmod.*--site-dir"):
        SitePlace(site).take()
    assert names(tmp_path) == {"site/index.html"}


def test_a_file_in_its_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").write_text("a file")
    with pytest.raises(UnwritableSite, match="is a file; take it away"):
        SitePlace(tmp_path / "site").take()


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "no room left on the disk (x); make some"),
        (errno.EROFS, "can only be read (x); build elsewhere"),
        (errno.EACCES, "cannot be written (x); give yourself the right"),
        (errno.EIO, os.strerror(errno.EIO)),
    ],
)
def test_what_a_disk_refuses_is_told(number: int, words: str) -> None:
    assert words in told(OSError(number, os.strerror(number), "x"))


# --- builds ------------------------------------------------------------------


def test_two_builds_at_once_make_one_whole_site(tmp_path: Path, demo_site: Path) -> None:
    """Whichever is first: the other is refused, or comes after it."""
    config = configuration(tmp_path, DEMO)
    both = [start(config), start(config)]
    said = [process.communicate()[0] for process in both]
    codes = {process.returncode for process in both}
    assert codes in ({0}, {0, 1}), said
    for process, words in zip(both, said, strict=True):
        assert "Traceback" not in words
        assert (process.returncode == 1) == ("another build is writing" in words)
    assert names(tmp_path / "site") == names(demo_site)
    assert not (tmp_path / ".site.build").exists()


def test_another_process_is_refused_with_words(tmp_path: Path) -> None:
    taken = SitePlace(tmp_path / "site")
    taken.take()
    process = start(configuration(tmp_path, DEMO))
    words = process.communicate()[0]
    taken.leave()
    assert process.returncode == 1 and "Traceback" not in words
    assert "another build is writing" in words and "nothing was written" in words


@pytest.mark.skipif(os.name == "nt", reason="needs SIGKILL")
@pytest.mark.parametrize("moment", ["lock", "new/assets", "new/exercises"])
def test_a_killed_build_leaves_the_last_site(tmp_path: Path, demo_site: Path, moment: str) -> None:
    site = old_site(tmp_path)
    config = configuration(tmp_path, DEMO)
    process = start(config)
    wait_for(tmp_path / ".site.build" / moment, process)
    process.send_signal(signal.SIGKILL)
    process.wait()
    assert names(site) == {"index.html"} and (site / "index.html").read_text() == "old"
    build(config)
    assert names(site) == names(demo_site) and not (tmp_path / ".site.build").exists()


def test_a_full_disk_is_told_in_words_and_leaves_the_last_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    old_site(tmp_path)
    copied = 0

    def full(source: str, to: str, *args: object, **more: object) -> str:
        nonlocal copied
        copied += 1
        if copied > 3:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return str(shutil.copy(source, to))

    monkeypatch.setattr(shutil, "copyfile", full)
    with pytest.raises(Abort):
        build(configuration(tmp_path, DEMO))
    assert "there is no room left on the disk; make some, then build again" in caplog.text
    assert "stays as it was" in caplog.text
    assert names(tmp_path) == {"site/index.html", "mkdocs.yml"}


def test_a_strict_build_that_warned_does_not_take_the_place(tmp_path: Path) -> None:
    """MkDocs ends a strict build only after everything was written."""
    content = tmp_path / "content"
    content.mkdir()
    (content / "index.md").write_text("# Home\n\n[Nowhere](nowhere.md)\n")
    site = old_site(tmp_path)
    config = configuration(tmp_path, DEMO, docs_dir=str(content), nav=None)
    with pytest.raises(Abort, match="in strict mode"):
        build(config, strict=True)
    assert names(site) == {"index.html"}
    build(config)
    assert "sw.js" in names(site)


def test_settings_are_as_before_after_a_build(tmp_path: Path) -> None:
    assert build(configuration(tmp_path, DEMO)) == tmp_path / "site"
