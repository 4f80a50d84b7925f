"""YAML of the catalog against the YAML specifications, and against files meant to harm.

Outside checks: the YAML 1.2.2 specification (yaml.org/spec/1.2.2; the tag
resolution table and example 10.9 of section 10.3.2 were read, the other section
numbers are from memory) and the types of YAML 1.1 (yaml.org/type) as PyYAML's own
``SafeLoader`` implements them.
"""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from folders import ROOT
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog import yaml_file as source
from build_tools.catalog.yaml_file import MAX_BYTES, MAX_DEPTH, SourceFile, read


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "entry.yaml"


def data_of(file: Path, text: str | bytes) -> object:
    """What the file holds; it must be sound."""
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    _, data, findings = read(file, "entry.yaml")
    assert findings == []
    return data


def refusal(file: Path, text: str | bytes) -> tuple[str, int, int]:
    """(rule, line, column) of the one thing wrong with the file."""
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    src, data, (finding,) = read(file, "entry.yaml")
    assert (
        data is None
        and src.text == ""
        and finding.message
        and finding.help
        and finding.spot.file == "entry.yaml"
    )
    return finding.rule, finding.spot.line, finding.spot.column


# YAML 1.2.2, section 10.3.2, "Core Schema, Tag Resolution", row by row.
CORE_SCHEMA = {
    "null": r"null|Null|NULL|~|",
    "bool": r"true|True|TRUE|false|False|FALSE",
    "int": r"[-+]?[0-9]+",
    "octal": r"0o[0-7]+",
    "hexadecimal": r"0x[0-9a-fA-F]+",
    "float": r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?",
    "infinity": r"[-+]?(\.inf|\.Inf|\.INF)",
    "not a number": r"\.nan|\.NaN|\.NAN",
}
#: Where the catalog is stricter than 1.2 on purpose: these stay text. Leading zeros read as 8 in YAML 1.1 and as 10 in
#: 1.2; nobody writes a load in octal or hexadecimal, or an infinite one; more than 18 digits overflow other readers.
STRICTER = re.compile(r"0o.*|0x.*|[-+]?\.(inf|nan)|[-+]?0[0-9]+.*|[-+]?[0-9]{19,}.*", re.IGNORECASE)
TYPES = {"null": type(None), "bool": bool, "int": int, "float": float}


def expected_type(plain: str) -> type:
    if STRICTER.fullmatch(plain):
        return str
    row = next(
        (name for name, pattern in CORE_SCHEMA.items() if re.fullmatch(pattern, plain)), None
    )
    return TYPES.get(row, str)


SURPRISES = """
null Null NULL ~ nULL none nil true True TRUE tRUE false False FALSE yes Yes YES no No NO on On ON off Off OFF y Y n N
0 -0 +0 7 -19 +23 00 07 08 010 0011 -010 0o0 0o7 0o17 0o8 0x0 0x3A 0X3A -0x30 0b101 1_000 0x2_0 1:30 190:20:30 1:30.5
0. -0.0 .5 .0 3. 3.14 +12e03 -2E+05 3e3 .3E-1 1e5 1E5 1e+5 e5 1.e5 .e5 . ._ .14 001.23 1_000.5 1.2.3
.inf -.Inf +.INF .nan .NaN .NAN inf nan Infinity 2001-12-14 2001-12-14t21:59:43.10-05:00 2026-11-20 << = 1,5 10% 5kg 1/2
123456789012345678 1234567890123456789 +
""".split()


@pytest.mark.parametrize("plain", SURPRISES)
def test_a_plain_scalar_has_the_type_of_the_core_schema(file: Path, plain: str) -> None:
    value = data_of(file, f"key: {plain}\n")["key"]
    assert type(value) is expected_type(plain)
    if isinstance(value, str):
        assert value == plain
    elif type(value) in (int, float):
        assert value == type(value)(plain)


@given(st.from_regex(r"\A[-+]?[0-9.eExXo_:]{1,8}\Z", fullmatch=True))
def test_any_numeral_has_the_type_of_the_core_schema(plain: str) -> None:
    if (
        plain.endswith(":")
        or plain == "-"
        or ": " in plain
        or plain.startswith("---")
        or plain == "..."
    ):
        return  # structure, not a scalar
    node = yaml.compose(f"key: {plain}", source._Loader)
    assert type(source._data(node, 2)["key"]) is expected_type(plain)


def test_example_10_9_of_the_specification(file: Path) -> None:
    # YAML 1.2.2, example 10.9 "Core Tag Resolution"; the stricter values are left as text and stand in the comment.
    text = """A null: null
Also a null: # Empty
Not a null: ""
Booleans: [ true, True, false, FALSE ]
Integers: [ 0, 0o7, 0x3A, -19 ]
Floats: [
  0., -0.0, .5, +12e03, -2E+05 ]
Also floats: [
  .inf, -.Inf, +.INF, .NAN ]
"""
    assert data_of(file, text) == {
        "A null": None,
        "Also a null": None,
        "Not a null": "",
        "Booleans": [True, True, False, False],
        "Integers": [0, "0o7", "0x3A", -19],  # 1.2: 0, 7, 58, -19
        "Floats": [0.0, -0.0, 0.5, 12000, -200000],
        "Also floats": [".inf", "-.Inf", "+.INF", ".NAN"],  # 1.2: infinite and not a number
    }


@pytest.mark.parametrize(
    "plain", ["no", "yes", "on", "off", "010", "1:30", "1_000", "0b101", "2026-11-20", "=", "<<"]
)
def test_what_yaml_1_1_changes_stays_as_written(file: Path, plain: str) -> None:
    # YAML 1.1 types bool, int (octal, sexagesimal, binary, underscores), timestamp, value and merge: PyYAML's SafeLoader.
    try:
        in_1_1 = yaml.safe_load(f"key: {plain}")["key"]
    except yaml.YAMLError:
        in_1_1 = None  # `=` and `<<` as values have no constructor there
    assert in_1_1 != plain or plain == "<<"
    assert data_of(file, f"key: {plain}\n") == {"key": plain}


def test_keys_are_always_text(file: Path) -> None:
    # YAML 1.1 (and PyYAML) would read False, 8, None and a merge here; 1.2 a null and numbers.
    assert data_of(file, "no: 1\n010: 2\n~: 3\n<<: 4\n5: 6\n") == {
        "no": 1,
        "010": 2,
        "~": 3,
        "<<": 4,
        "5": 6,
    }


def test_quoted_scalars_are_text(file: Path) -> None:
    # YAML 1.2.2 section 7.3: quoted scalars are never resolved to another type.
    assert data_of(file, """a: "1"\nb: 'null'\nc: "true"\nd: |\n  5\n""") == {
        "a": "1",
        "b": "null",
        "c": "true",
        "d": "5\n",
    }


def test_duplicate_keys_are_refused(file: Path) -> None:
    # YAML 1.2.2 section 3.2.1.1: mapping keys are unique. PyYAML keeps the last.
    assert refusal(file, "a:\n  b: 1\n  b: 2\n") == ("duplicate-key", 3, 3)
    assert refusal(file, "a: {b: 1, 'b': 2}\n") == ("duplicate-key", 1, 11)


def test_tabs_do_not_indent(file: Path) -> None:
    # YAML 1.2.2 section 6.1: indentation is spaces only; section 6.2 lets tabs separate tokens.
    assert refusal(file, "a:\n\tb: 1\n")[:2] == ("yaml-syntax", 2)
    assert data_of(file, "a:\tb\n") == {"a": "b"}


def test_byte_order_mark_and_line_breaks(file: Path) -> None:
    # YAML 1.2.2 section 5.2 (byte order mark) and 5.4 (CR LF, CR and LF are breaks).
    assert data_of(file, b"\xef\xbb\xbfa: 1\n") == {"a": 1}
    assert data_of(file, b"a: 1\r\nb: 2\r\n") == data_of(file, b"a: 1\rb: 2\r") == {"a": 1, "b": 2}
    file.write_bytes(b"a: 1\r\nb:\r\n  c: 2\r\n")
    assert read(file, "")[0].position(("b", "c")) == (3, 6)


@pytest.mark.parametrize("character", ["\x85", "\u2028", "\u2029"])
def test_breaks_of_yaml_1_1_only_are_refused(file: Path, character: str) -> None:
    # YAML 1.2.2 section 5.4: NEL, LS and PS are not breaks; YAML 1.1 (and libyaml) says they are. Stricter than both.
    assert yaml.safe_load(f"a: 1{character}b: 2\n") == {"a": 1, "b": 2}
    assert refusal(file, f"x: 1\na: 1{character}b: 2\n") == ("file-encoding", 2, 5)


@pytest.mark.parametrize("character", ["\0", "\x07", "\x1b", "\x7f", "\x80", "\ufeff", "\uffff"])
def test_characters_that_are_not_text_are_refused(file: Path, character: str) -> None:
    # YAML 1.2.2 section 5.1, production c-printable; delete (7F) is stricter than 1.2.
    assert refusal(file, f"a: 1\nb: x{character}\n") == ("file-encoding", 2, 5)


@pytest.mark.parametrize(
    "octets",
    [b"a: \xff\n", b"a: \xed\xa0\x80\n", "a: é\n".encode("latin-1"), "a: é\n".encode("utf-16")],
)
def test_only_utf_8_is_read(file: Path, octets: bytes) -> None:
    # Stricter than YAML 1.2.2 section 5.2, which allows UTF-16 and UTF-32.
    assert refusal(file, octets)[0] == "file-encoding"


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("a: &x 1\nb: *x\n", "yaml-alias"),
        ("a: [&x 1]\n", "yaml-alias"),
        ("&x a: 1\n", "yaml-alias"),
        ("a: 1\nb: *a\n", "yaml-alias"),
        ("a: !!str 1\n", "yaml-tag"),
        ("a: ! 1\n", "yaml-tag"),
        ("!!python/object/apply:os.getcwd []\n", "yaml-tag"),
        ("a: !!binary aGVsbG8=\n", "yaml-tag"),
        ("%TAG ! tag:x,2000:\n---\na: !y 1\n", "yaml-tag"),
        ("? [a, b]\n: 1\n", "yaml-key"),
        ("{[a]: 1}\n", "yaml-key"),
        ("a: 1\n---\nb: 2\n", "yaml-syntax"),
        ("a: b: c\n", "yaml-syntax"),
        ("a: 'open\n", "yaml-syntax"),
        ("a: @b\n", "yaml-syntax"),
        ("-\t" * 100_000, "yaml-syntax"),
        ("a: `b`\n", "yaml-syntax"),
        ("a: [1, 2\n", "yaml-syntax"),
        ("a:\n  b: 1\n c: 2\n", "yaml-syntax"),
        ("word\nb: 2\n", "yaml-syntax"),
        ("%YAML 3.0\n---\na: 1\n", "yaml-syntax"),
        ('a: "\\q"\n', "yaml-syntax"),
        ('a: "\\uD800"\n', "yaml-syntax"),
    ],
)
def test_what_the_catalog_does_not_use_is_refused(file: Path, text: str, rule: str) -> None:
    assert refusal(file, text)[0] == rule


def test_marks_in_text_are_no_anchors(file: Path) -> None:
    text = "a: Medicine & Science\nb: [R&D, x *y*]\nc: 'Stop! &now'\nd: \"*\"\ne: >-\n  &folded\n  *text !\n"
    assert data_of(file, text) == {
        "a": "Medicine & Science",
        "b": ["R&D", "x *y*"],
        "c": "Stop! &now",
        "d": "*",
        "e": "&folded *text !",
    }


def test_places_of_syntax_errors(file: Path) -> None:
    assert refusal(file, "a: 1\nb: c: d\n") == ("yaml-syntax", 2, 5)
    assert refusal(file, "a: 1\nb: &x 2\n") == ("yaml-alias", 2, 4)
    assert refusal(file, "a: 1\nb: !x 2\n") == ("yaml-tag", 2, 4)
    # What is never closed is shown where it opens, or else where the text ends, but not below it.
    assert refusal(file, "a: 1\nb: 'x\nc: 2\n\n") == ("yaml-syntax", 2, 4)
    assert refusal(file, "a: 1\nb: [1\n\n") == ("yaml-syntax", 2, 4)
    assert refusal(file, "a: 1\nb: [1,\n\n") == ("yaml-syntax", 2, 7)


BOMB = "a: &a [x]\n" + "".join(
    f"{y}: &{y} [{', '.join([f'*{x}'] * 9)}]\n" for x, y in zip("abcdefgh", "bcdefghi", strict=True)
)
DEEP = {
    "flow lists": "[" * 100_000,
    "closed flow lists": "[" * 1_000 + "]" * 1_000,
    "flow mappings": "{a: " * 50_000,
    "block lists": "- " * 100_000,
    "keys of keys": "? " * 100_000,
    "lists in many lines": "\n".join(" " * i + "-" for i in range(700)),
    "mappings in many lines": "\n".join(" " * i + "a:" for i in range(700)),
    "just below the quick bound": "- " * 49 + "[" * 199 + "]" * 199,
}


@pytest.mark.parametrize("text", DEEP.values(), ids=DEEP)
def test_depth_is_refused_before_the_stack_runs_out(file: Path, text: str) -> None:
    """In a process of its own with the small stack some systems give to threads: a crash must fail here, not end the run."""
    file.write_text(text)
    script = (
        "import sys, threading, pathlib; from build_tools.catalog.yaml_file import read; threading.stack_size(512 * 1024)\n"
        "t = threading.Thread(target=lambda: print(read(pathlib.Path(sys.argv[1]), 'x')[2][0].rule)); t.start(); t.join()"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, file],
        capture_output=True,
        text=True,
        timeout=60,
        cwd=ROOT,
    )
    assert (done.returncode, done.stdout) == (0, "yaml-depth\n"), done.stderr


def test_alias_bombs_are_refused(file: Path) -> None:
    assert refusal(file, BOMB) == ("yaml-alias", 1, 4)


def test_depth_up_to_the_limit_is_read(file: Path) -> None:
    levels = MAX_DEPTH
    data = data_of(file, "[" * levels + "1" + "]" * levels)
    for _ in range(levels):
        (data,) = data
    assert data == 1
    assert refusal(file, "[" * (levels + 1) + "]" * (levels + 1)) == ("yaml-depth", 1, levels + 1)


def test_large_files_are_refused(file: Path) -> None:
    assert refusal(file, "#" * (MAX_BYTES + 1))[0] == "file-size"
    assert data_of(file, "#" * MAX_BYTES) is None


def test_only_plain_files_are_read(file: Path, tmp_path: Path) -> None:
    file.mkdir()
    assert read(file, "x")[2][0].rule == "file-unreadable"
    link = tmp_path / "link.yaml"
    (tmp_path / "target.yaml").write_text("a: 1\n")
    link.symlink_to(tmp_path / "target.yaml")
    assert read(link, "x")[2][0].rule == "file-unreadable"
    assert read(tmp_path / "missing.yaml", "x")[2][0].rule == "file-unreadable"


TEXT = """\
# comment
name: Curl
empty:
items: [one, two]
inner:
  - a: 1
    b: "x"
  -
    a: 2
no: yes
text: >-
  folded
"""


@pytest.mark.parametrize(
    ("path", "value", "key"),
    [
        ((), (2, 1), (2, 1)),
        (("name",), (2, 7), (2, 1)),
        (("empty",), (3, 1), (3, 1)),
        (("items",), (4, 8), (4, 1)),
        (("items", 1), (4, 14), (4, 14)),
        (("items", 9), (4, 8), (4, 8)),
        (("inner", 0), (6, 5), (6, 5)),
        (("inner", 0, "b"), (7, 8), (7, 5)),
        (("inner", 1, "a"), (9, 8), (9, 5)),
        (("inner", 1, "missing"), (9, 5), (9, 5)),
        (("missing",), (2, 1), (2, 1)),
        (("name", "too", "far"), (2, 7), (2, 7)),
        (("no",), (10, 5), (10, 1)),
        (("text",), (11, 7), (11, 1)),
    ],
)
def test_positions(
    path: tuple[str | int, ...], value: tuple[int, int], key: tuple[int, int]
) -> None:
    src = SourceFile(Path("x"), "x", TEXT)
    assert src.position(path) == value
    if path and path[-1] in ("name", "empty", "items", "b", "a", "no", "text"):
        assert src.position(path, key=True) == key


def test_an_empty_file_has_a_place() -> None:
    assert SourceFile(Path("x"), "x", "").position(("a",)) == (1, 1)


YAML_LIKE = st.text(
    alphabet=st.one_of(st.sampled_from("ab01 -:?,[]{}#&*!|>'\"%@`~.\n\t\\"), st.characters()),
    max_size=60,
)


@given(
    st.one_of(
        YAML_LIKE.map(lambda text: text.encode("utf-8", "surrogatepass")), st.binary(max_size=60)
    )
)
def test_any_bytes_give_data_or_a_finding(
    tmp_path_factory: pytest.TempPathFactory, octets: bytes
) -> None:
    file = tmp_path_factory.getbasetemp() / "any.yaml"
    file.write_bytes(octets)
    src, data, findings = read(file, "any.yaml")
    if findings:
        (finding,) = findings
        lines = octets.replace(b"\r\n", b"\n").replace(b"\r", b"\n").split(b"\n")
        assert data is None and 1 <= finding.spot.line <= len(lines) and finding.spot.column >= 1
    else:
        assert src.position(("a", 0)) >= (1, 1)
        # No alias, anchor or tag ever gets through: the events of the parser are the judge.
        assert not [
            e
            for e in yaml.parse(src.text, yaml.CSafeLoader)
            if isinstance(e, yaml.AliasEvent)
            or getattr(e, "anchor", None)
            or getattr(e, "tag", None)
        ]
