"""Mends become suggestions that give, taken over one by one, the mended file.

Outside sources: GitHub's documentation of "Create a review for a pull request" (a comment's `line`, `start_line` and
`side`; both lines lie in one stretch of the pull request's diff) and of suggestions (the block replaces the lines that
the comment stands on); CommonMark 0.31, 4.5 (a fence is closed by one at least as long). Git makes every diff, so what
is read is what git writes.
"""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from contributed import Repository
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from build_tools import cli
from build_tools.commands.upkeep.suggestions import BARE, MOST, hunks, review

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")

FILE = "catalog/a file.yaml"


def taken_over(comments: list[dict], text: str) -> str:
    """The file after each suggestion was clicked, from the last line up so that none moves another."""
    lines = text.split("\n")
    for comment in sorted(comments, key=lambda comment: comment["line"], reverse=True):
        assert comment["side"] == "RIGHT" and comment["path"] == FILE
        fence, block = re.search(
            r"^(`{3,})suggestion\n(.*)\1$", comment["body"], re.MULTILINE | re.DOTALL
        ).groups()
        assert not re.search(rf"^{fence}", block, re.MULTILINE), "the block ends where it should"
        first = comment.get("start_line", comment["line"])
        lines[first - 1 : comment["line"]] = block.split("\n")[:-1]
    return "\n".join(lines)


def reviewed(folder: Path, before: str, sent: str, mended: str) -> dict:
    """The review of a change from ``before`` to ``sent``, of which the check makes ``mended``."""
    repository = Repository(folder)
    path = folder / FILE
    path.parent.mkdir()
    path.write_text(before, encoding="utf-8", newline="\n")
    base = repository.commit("base")
    path.write_text(sent, encoding="utf-8", newline="\n")
    head = repository.commit("sent")
    path.write_text(mended, encoding="utf-8", newline="\n")
    own, mends = repository("diff", base, head), repository("diff", *BARE, head)
    return review(mends, own, lambda name: repository("show", f"{head}:{name}").split("\n"), head)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    sent=st.lists(st.sampled_from("abc`"), min_size=1, max_size=8),
    mended=st.lists(st.sampled_from(["a", "b", "````", "-- x", "++ y", "@@ -1 +1 @@"]), max_size=8),
)
def test_all_suggestions_of_a_new_file_together_are_the_mended_file(
    tmp_path_factory: pytest.TempPathFactory, sent: list[str], mended: list[str]
) -> None:
    """In a new file every line may carry one, so nothing is left elsewhere."""
    text = "".join(f"{line}\n" for line in sent)
    wanted = "".join(f"{line}\n" for line in mended)
    found = reviewed(tmp_path_factory.mktemp("repository"), "", text, wanted)
    assert taken_over(found["comments"], text) == wanted
    assert "elsewhere" not in found["body"]


NUMBERED = [f"line {number}" for number in range(1, 41)]


@pytest.mark.parametrize(
    ("mended", "place"),
    [
        ({20: ["LINE 20"]}, {"line": 20}),
        ({19: ["one"], 20: ["two"]}, {"start_line": 19, "start_side": "RIGHT", "line": 20}),
        ({20: []}, {"line": 20}),  # an empty block takes the line out
        ({23: ["line 23", "new"]}, {"line": 23}),
        ({17: ["new", "line 17"]}, {"line": 17}),
        ({24: ["LINE 24"]}, None),  # one line beyond what the pull request shows
        ({16: ["LINE 16"]}, None),
        ({23: ["x"], 24: ["y"]}, None),  # begins inside and ends outside
        ({5: ["LINE 5"]}, None),
    ],
)
def test_only_lines_of_the_pull_request_carry_one(
    tmp_path: Path, mended: dict[int, list[str]], place: dict | None
) -> None:
    """The change is at line 20, so git shows lines 17 to 23."""
    sent = [*NUMBERED[:19], "sent", *NUMBERED[20:]]
    after = [row for at, line in enumerate(sent, 1) for row in mended.get(at, [line])]
    text, wanted = ("\n".join(rows) + "\n" for rows in (sent, after))
    found = reviewed(tmp_path, "\n".join(NUMBERED) + "\n", text, wanted)
    if place is None:
        assert found["comments"] == []
        assert found["body"] == "1 more stands elsewhere: `handbook check --fix` mends them."
        return
    (comment,) = found["comments"]
    assert {key: comment[key] for key in comment if "line" in key or key == "start_side"} == place
    assert taken_over([comment], text) == wanted
    assert found["event"] == "COMMENT" and re.fullmatch("[0-9a-f]{40}", found["commit_id"])


def test_two_stretches_carry_no_suggestion_across_their_gap(tmp_path: Path) -> None:
    sent = [*NUMBERED[:9], "sent", *NUMBERED[10:29], "sent", *NUMBERED[30:]]
    mended = [*sent[:12], *(f"x{number}" for number in range(16)), *sent[28:]]
    found = reviewed(tmp_path, *("\n".join(rows) + "\n" for rows in (NUMBERED, sent, mended)))
    assert found["comments"] == []


def test_a_line_break_at_the_end_is_no_suggestion(tmp_path: Path) -> None:
    assert reviewed(tmp_path, "", "a\nb", "a\nb\n") == {
        "commit_id": Repository(tmp_path)("rev-parse", "HEAD").strip(),
        "event": "COMMENT",
        "body": "",
        "comments": [],
    }


def test_a_page_full_of_suggestions_is_cut(tmp_path: Path) -> None:
    sent = "".join(f"a{number}\nkept\nkept\n" for number in range(MOST + 5))
    found = reviewed(tmp_path, "", sent, sent.replace("a", "A"))
    assert len(found["comments"]) == MOST
    assert found["body"].startswith(f"{MOST} slips can be mended with one click each")
    assert "5 more stand elsewhere" in found["body"]


def test_files_that_come_go_or_are_no_text_have_no_stretch(tmp_path: Path) -> None:
    repository = Repository(tmp_path)
    for name, content in (
        ("gone", b"a\n"),
        ("picture", b"\0\1"),
        ("umlaut \xc3\xa4".encode(), b""),
    ):
        (tmp_path / (name if isinstance(name, str) else name.decode())).write_bytes(content)
    base = repository.commit("base")
    (tmp_path / "gone").unlink()
    (tmp_path / "picture").write_bytes(b"\0\2")
    assert [*hunks(repository("diff", base))] == []


def test_the_command_prints_a_review_for_what_lies_in_the_work_tree(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    repository = Repository(here.parent)
    repository.commit("base")
    repository("switch", "--quiet", "--create", "sent")
    path = here / "exercises" / "crate-curl.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("name: Crate curl", "name:  Crate curl"), encoding="utf-8")
    head = repository.commit("a slip")
    repository("switch", "--quiet", "main")
    repository.commit("meanwhile")
    repository("switch", "--quiet", "sent")
    path.write_text(text, encoding="utf-8")
    for name in ("addresses.txt", "conclusions/muscles/lantern.yaml"):
        (here / name).write_text("made, not suggested\n", encoding="utf-8")
    assert cli.main(["upkeep", "suggestions", "--since", "main"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["commit_id"] == head
    assert [(c["path"], c["line"]) for c in found["comments"]] == [
        ("catalog/exercises/crate-curl.yaml", 1)
    ]
    assert found["body"] == "1 slip can be mended with one click."
    assert "\n```suggestion\nname: Crate curl\n```" in found["comments"][0]["body"]
    review_file = here.parent / "review.json"
    assert cli.main(["upkeep", "suggestions", "--since", "main", "--out", str(review_file)]) == 0
    assert json.loads(review_file.read_text(encoding="utf-8")) == found
    review_file.unlink()
    repository("checkout", "--quiet", ".")
    assert cli.main(["upkeep", "suggestions", "--since", "main", "--out", str(review_file)]) == 0
    assert not review_file.exists(), "nothing to suggest, so nothing to send"
