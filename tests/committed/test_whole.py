"""A file whole or not at all, on a disk that is full (ENOSPC of POSIX)."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from build_tools.committed.whole import put


@pytest.mark.parametrize("step", ["pathlib.Path.write_text", "os.replace"])
def test_what_could_not_be_written_leaves_nothing_beside_the_old(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = tmp_path / "a.yaml"
    put(path, "old: true\n")
    if step == "pathlib.Path.write_text":  # as far as the disk has room
        monkeypatch.setattr(step, lambda to, *_, **__: (to.open("x").close(), full())[1])
    else:
        monkeypatch.setattr(step, lambda *_: full())
    with pytest.raises(OSError, match="full"):
        put(path, "new: true\n")
    assert [one.name for one in tmp_path.iterdir()] == ["a.yaml"]
    assert path.read_text(encoding="utf-8") == "old: true\n"


def full() -> None:
    raise OSError(errno.ENOSPC, "full")
