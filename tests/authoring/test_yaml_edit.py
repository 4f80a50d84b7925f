"""Edits of YAML text, held against PyYAML's own reader: the data changes as meant, the other lines not at all."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from build_tools.authoring.yaml_edit import TextPlace, YamlText, replaced, without

WORDS = st.sampled_from(["a", "b c", "'x: y'", '"# no"', "{k: v}", "[1, 2]"])
BLOCK = ["{}", "{}  # told", ">-\n      folded\n      text", "|\n      kept\n"]


def place_of(edit: YamlText, path: tuple[str | int, ...]) -> TextPlace:
    """The place that a path leads to, found by looking at every line and column."""
    for line, text in enumerate(edit.text.split("\n"), 1):
        for column in range(1, len(text) + 2):
            for place in edit.at(line, column):
                if place.path == path:
                    return place
    raise AssertionError(path)


@given(st.data())
def test_an_entry_of_a_list_goes_and_nothing_else(data: st.DataObject) -> None:
    items = data.draw(st.lists(WORDS, min_size=1, max_size=4))
    index = data.draw(st.integers(0, len(items) - 1))
    if data.draw(st.booleans()):
        gap = data.draw(st.sampled_from([", ", ",", " , ", ",\n    "]))
        text = f"# head\nlist: [{gap.join(items)}]  # end\nnext: ö😀\n"
        gone = None
    else:
        tails = [data.draw(st.sampled_from(["", "  # told", "\n  # of the next"])) for _ in items]
        lines = [f"  - {item}{tail}\n" for item, tail in zip(items, tails, strict=True)]
        text = f"# head\nlist:  # few\n{''.join(lines)}# foot\nnext: ö😀\n"
        gone = f"  - {items[index]}"
    edit = YamlText(text)
    made = edit.without_item(place_of(edit, ("list", index)))
    assert made is not None
    before = yaml.safe_load(text)
    del before["list"][index]
    assert yaml.safe_load(made) == before == without(edit.data, ("list", index))
    if gone:
        left = [line for line in text.split("\n") if not line.startswith(gone)]
        assert set(made.split("\n")) >= {line for line in left if line != "list:  # few"}
        assert len(made) < len(text) or len(items) == 1


@pytest.mark.parametrize("form", BLOCK)
@pytest.mark.parametrize("index", [0, 1])
def test_texts_of_many_lines_go_whole(form: str, index: int) -> None:
    item = form.format("one")
    text = f"list:\n  - {item}\n  - two\n\n# foot\nnext: 1\n".replace("\n\n  -", "\n  -")
    if index:
        text = f"list:\n  - two\n  - {item}\n\n# foot\nnext: 1\n".replace("\n\n\n", "\n\n")
    edit = YamlText(text)
    made = edit.without_item(place_of(edit, ("list", index)))
    assert made is not None and yaml.safe_load(made) == {"list": ["two"], "next": 1}
    assert "# foot\nnext: 1\n" in made


@pytest.mark.parametrize("text", ["list:\n  - - a\n    - b\n", "list: [a,\n  # told\n  b]\n"])
def test_what_shares_its_line_or_its_comment_stays(text: str) -> None:
    edit = YamlText(text)
    path = ("list", 0, 0) if "- - a" in text else ("list", 1)
    assert edit.without_item(place_of(edit, path)) is None


def test_a_key_goes_with_its_line() -> None:
    for text in ("a: 1\nb: 2  # told\nc: 3\n", "{a: 1, b: 2, c: 3}\n"):
        edit = YamlText(text)
        place = place_of(edit, ("b",))
        assert place.key is not None
        made = edit.without_pair(place.key, place.node, text.startswith("{"))
        assert made is not None and yaml.safe_load(made) == {"a": 1, "c": 3}
        assert "told" not in made


def test_data_with_another_value_is_another() -> None:
    data = {"a": [{"p": 1}]}
    assert replaced(data, ("a", 0, "p"), 2) == {"a": [{"p": 2}]}
    assert replaced(data, ("a", 0, "p"), 2, "q") == {"a": [{"q": 2}]}
    assert data == {"a": [{"p": 1}]}
