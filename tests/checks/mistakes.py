"""Slips that people make in a catalog, one at a time, and what each must be told.

Each row changes one file of a copy of the shipped catalog. ``told`` is ``None`` for what is rightly let through.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

CURL = "exercises/prone-leg-curl.yaml"
SEATED = "exercises/seated-leg-curl.yaml"
SIGNALS = "studies/campos2020.yaml"
CURLS = "studies/kassiano2025.yaml"
GROWTH = "studies/maeo2021.yaml"
BIB = "references.bib"
HANDBOOK = "handbook.yaml"
VOCABULARY = "vocabulary.yaml"

Change = Callable[[Path], None]


class Told(NamedTuple):
    """What is said: the rule, the file and a piece of the line it points at, and words of message and help."""

    rule: str
    at: str
    """A piece of the line that is pointed at, as it stands after the change; empty for the first line."""
    words: tuple[str, ...]
    file: str
    most: int
    """How many findings there may be; one slip is not told many times."""


class Mistake(NamedTuple):
    name: str
    change: Change
    told: Told | None
    until: str = ""
    """Why this is not told yet."""


def edit(file: str, old: str | re.Pattern[str], new: str) -> Change:
    """Replace the first ``old`` in ``file``, which must hold it; ``new`` may name the groups of a pattern."""

    def change(catalog: Path) -> None:
        text = (catalog / file).read_text(encoding="utf-8")
        found = old.search(text) if isinstance(old, re.Pattern) else re.search(re.escape(old), text)
        assert found, f"{file} does not hold {old!r} any more"
        put = found.expand(new) if isinstance(old, re.Pattern) else new
        rewrite(catalog / file, (text[: found.start()] + put + text[found.end() :]).encode())

    return change


def whole(file: str, make: Callable[[str], str | bytes]) -> Change:
    """Replace all of ``file``."""

    def change(catalog: Path) -> None:
        made = make((catalog / file).read_text(encoding="utf-8"))
        rewrite(catalog / file, made if isinstance(made, bytes) else made.encode())

    return change


def add(file: str, content: str | bytes | None = "", like: str = "") -> Change:
    """Write a further file, with the content of another one if ``like`` names it; ``None`` makes a folder."""

    def change(catalog: Path) -> None:
        if content is None:
            (catalog / file).mkdir()
        else:
            made = (catalog / like).read_bytes() if like else content
            (catalog / file).write_bytes(made if isinstance(made, bytes) else made.encode())

    return change


def move(file: str, to: str) -> Change:
    return lambda catalog: (catalog / file).rename(catalog / to) and None


def link(file: str, to: str) -> Change:
    return lambda catalog: (catalog / file).symlink_to(catalog / to)


def rewrite(path: Path, content: bytes) -> None:
    """Write a new file in its place: the old one is shared with other copies."""
    path.unlink()
    path.write_bytes(content)


def row(
    name: str,
    change: Change,
    rule: str,
    at: str,
    *words: str,
    file: str = CURL,
    most: int = 1,
    until: str = "",
) -> Mistake:
    return Mistake(name, change, Told(rule, at, words, file, most), until)


def passes(name: str, change: Change) -> Mistake:
    return Mistake(name, change, None)


def _append(record: str) -> Callable[[str], str]:
    return lambda text: text + "\n" + record


_CLAIM = "    because: Lying keeps the hip nearly straight"
_CITES = (
    "    cites: [{key: maeo2021, at: abstract}]\n  - part: [hamstrings/biceps-femoris-short-head]"
)
_AFTER = "\n  - part: [hamstrings/biceps-femoris-short-head]"
_OTHER_RECORD = """@article{zz2020,
  author = {Zz, A.},
  title = {Nothing in particular},
  journal = {Journal},
  year = {2020},
  doi = {10.1000/zz.1},
  read = {abstract},
  readat = {index page},
}
"""


def _cites(new: str) -> Change:
    return edit(CURL, _CITES, f"    {new}{_AFTER}" if new else _AFTER.lstrip("\n"))


def _contrast(new: str) -> Change:
    """Another first contrast in the study of the two curls."""
    return edit(
        CURLS, re.compile(r"(contrasts:\n\s+- )\{of: incline.*?\}\}", re.DOTALL), rf"\1{new}"
    )


def _press(new: str) -> Change:
    return edit(SIGNALS, "press: {mean: 33.3}", f"press: {new}")


def _accent(colour: str) -> Change:
    return edit(HANDBOOK, "notice:\n", f'palette:\n  light: {colour}\n  dark: "#86cbc5"\nnotice:\n')


def _without_arm(text: str) -> str:
    return re.sub(r"^  fly: .*\n", "", text, count=1, flags=re.MULTILINE)


def _same_people(text: str) -> str:
    """A second copy of the first contrast, the other way round."""
    return text.replace(
        "contrasts:\n",
        "contrasts:\n      - {of: bench, against: press, favours: of, test: between}\n",
        1,
    )


# fmt: off
MISTAKES: list[Mistake] = [
    # --- YAML -------------------------------------------------------------------------------------------------------
    row("one space less", edit(CURL, "\n    outcome: growth", "\n   outcome: growth"), "yaml-syntax", "   outcome: growth", "line up"),
    row("list item pushed in", edit(CURL, "\n    - do: Line up", "\n      - do: Line up"), "yaml-syntax", "- do: Line up", "line up"),
    row("tab as indent", edit(CURL, "\n    outcome: growth", "\n\toutcome: growth"), "yaml-syntax", "outcome: growth", "tab", "spaces"),
    row("colon in text", edit(CURL, "Your legs do the work and", "Your legs do the work: and"), "yaml-syntax", "work: and", "`: `",
        "quotes"),
    row("no-break space in an indent", edit(CURL, "\n    outcome: growth", "\n  \u00a0 outcome: growth"), "yaml-syntax", "outcome: growth",
        "looks like a space", "U+00A0"),
    row("empty file", whole(CURL, lambda text: ""), "wrong-type", "", "`key: value`"),
    row("only comments", whole(CURL, lambda text: "# to do\n"), "wrong-type", "", "`key: value`"),
    row("list where a mapping belongs", whole(CURL, lambda text: "- name: Prone leg curl\n"), "wrong-type", "", "`key: value`"),
    row("mapping where a list belongs", edit(CURL, re.compile(r"swaps: \[.*\]"), "swaps: {seated-leg-curl: first}"), "wrong-type", "swaps:",
        "a list"),
    row("duplicate key", whole(CURL, lambda text: text + "reviewed: 2026-11-25\n"), "duplicate-key", "reviewed", "second time"),
    row("merge conflict in an entry", whole(CURL, lambda text: f"<<<<<<< HEAD\n{text}=======\n{text}>>>>>>> branch\n"), "merge-conflict",
        "<<<<<<< HEAD", "merge conflict"),
    row("end of a merge conflict", edit(CURL, "faults:\n", "=======\nfaults:\n"), "merge-conflict", "=======", "merge conflict"),
    row("fence of Markdown", whole(CURL, lambda text: f"```yaml\n{text}```\n"), "yaml-syntax", "```yaml", "a fence of Markdown"),
    row("dash of a word processor", edit(CURL, "    - do: Rest the", "    – do: Rest the"), "yaml-syntax", "– do:", "plain hyphen"),
    row("text after its quote", edit(CURL, "do: Rest the roller", 'do: "Rest" the roller'), "yaml-syntax", '"Rest" the', "after the quote"),
    row("apostrophe in single quotes", edit(CURL, "do: Rest the", "do: 'Don't rest the"), "yaml-syntax", "'Don't", "of the other kind"),
    row("star before a value", edit(CURL, "do: Rest the roller", "do: *Rest* the roller"), "yaml-syntax", "*Rest*", "may not start"),
    row("cue without its key", edit(CURL, "    - do: Rest the", "    - Rest the"), "yaml-syntax", "common_practice: ", "line above has no key",
        "- key: text"),
    row("wide colon", edit(CURL, "also_called: [", "also_called： ["), "yaml-syntax", "also_called", "only looks like a colon", "U+FF1A"),
    row("no-break space after a colon", edit(CURL, "outcome: growth", "outcome:\u00a0growth"), "yaml-syntax", "outcome:",
        "only looks like a space", "U+00A0"),
    row("no space after a colon", edit(CURL, "from: {hip: 10, knee: 5}", "from: {hip:10, knee: 5}"), "wrong-value", "hip:10",
        "a space after the colon: hip: 10", most=3),
    row("name with a number sign", edit(CURL, "name: Prone leg curl", "name: Prone leg curl #2"), "cut-by-hash", "#2",
        "read as `Prone leg curl`", '"Prone leg curl #2"'),
    row("null value", edit(CURL, "name: Prone leg curl", "name:"), "wrong-type", "name:", "should be text", "empty"),
    row("anchor and alias", edit(CURL, "equipment: [", "equipment: &kit ["), "yaml-alias", "&kit", "anchors"),
    row("python tag", edit(CURL, "name: Prone", "name: !!python/name:os.system Prone"), "yaml-tag", "!!python", "tags"),
    row("yes for a text", edit(CURL, "name: Prone leg curl", "name: yes"), "boolean-text", "name: yes", "answers yes or no", "`name`"),
    # --- characters and files ---------------------------------------------------------------------------------------
    row("curly quotes around a value", edit(CURL, "name: Prone leg curl", "name: “Prone leg curl”"), "quoted-value", "name:",
        "straight ones"),
    passes("curly apostrophe", edit(CURL, "the machine's turning", "the machine’s turning")),
    passes("other line ends", whole(CURL, lambda text: text.replace("\n", "\r\n"))),
    passes("byte order mark", whole(CURL, lambda text: "\ufeff" + text)),
    row("Latin-1", whole(CURL, lambda text: text.replace("Prone", "Prône").encode("latin-1")), "file-encoding", "", "not UTF-8"),
    row("UTF-16", whole(CURL, lambda text: text.encode("utf-16")), "file-encoding", "", "not UTF-8"),
    passes("name in another language", edit(CURL, "name: Prone leg curl", "name: Élévation couchée")),
    row("soft hyphen in a cue", edit(CURL, "Rest the roller", "Rest the rol\u00adler"), "wrong-value", "do: Rest", "U+00AD", "anew"),
    row("invisible character in an id", edit(CURL, "swaps: [seated-leg", "swaps: [seated\u200b-leg"), "wrong-value", "swaps:", "U+200B",
        "type it anew"),
    row("hyphen of a word processor in an id", edit(CURL, "swaps: [seated-", "swaps: [seated\u2011"), "wrong-value", "swaps:", "U+2011"),
    row("no-break space behind a word", edit(CURL, "outcome: growth", "outcome: growth\u00a0"), "wrong-value", "outcome:", "U+00A0"),
    row("Cyrillic letter in a name", edit(CURL, "name: Prone", "name: Рrone"), "look-alike-letters", "name:",
        unicodedata.name("Р").capitalize(), "U+0420"),
    row("exercise among the studies", move(CURL, "studies/prone-leg-curl.yaml"), "misplaced-file", "", "an exercise",
        "move it to exercises/prone-leg-curl.yaml", file="studies/prone-leg-curl.yaml"),
    row("exercise at the top", move(CURL, "prone-leg-curl.yaml"), "misplaced-file", "", "move it to exercises/prone-leg-curl.yaml",
        file="prone-leg-curl.yaml"),
    row("ending yml", move(CURL, "exercises/prone-leg-curl.yml"), "file-name", "", ".yaml", file="exercises/prone-leg-curl.yml"),
    row("space in the id", move(CURL, "exercises/prone leg curl.yaml"), "file-name", "", "hyphens", file="exercises/prone leg curl.yaml"),
    row("capitals in the id", move(CURL, "exercises/Prone-Leg-Curl.yaml"), "file-name", "", "small letters",
        file="exercises/Prone-Leg-Curl.yaml"),
    row("underscore in the id", move(CURL, "exercises/prone_leg_curl.yaml"), "file-name", "", "hyphens",
        file="exercises/prone_leg_curl.yaml"),
    row("copy of an editor", add("exercises/prone-leg-curl.yaml~", like=CURL), "file-name", "", ".yaml",
        file="exercises/prone-leg-curl.yaml~"),
    row("second download", add("exercises/prone-leg-curl (1).yaml", like=CURL), "file-name", "", "small letters",
        file="exercises/prone-leg-curl (1).yaml"),
    passes("file of a desktop", add("exercises/.DS_Store", b"\x00\x01")),
    row("link in place of a file", link("exercises/link.yaml", CURL), "file-unreadable", "", "plain file", file="exercises/link.yaml"),
    row("folder below exercises", add("exercises/legs", None), "file-name", "", ".yaml", file="exercises/legs"),
    # --- keys and values --------------------------------------------------------------------------------------------
    row("wrong key", edit(CURL, "    cites: [{key: maeo2021", "    cite: [{key: maeo2021"), "unknown-key", "cite:", "`cites`"),
    row("other word for a key", edit(CURL, "    cites: [{key: maeo2021", "    citation: [{key: maeo2021"), "unknown-key", "citation:",
        "citation"),
    row("text for an angle", edit(CURL, "from: {hip: 10", "from: {hip: ten"), "wrong-type", "hip: ten", "a number"),
    row("angle in quotes", edit(CURL, "from: {hip: 10, knee: 5}", 'from: {hip: 10, knee: "5"}'), "wrong-type", "knee:", "without quotes"),
    row("angle with its sign", edit(CURL, "from: {hip: 10, knee: 5}", "from: {hip: 10, knee: 5°}"), "wrong-type", "knee: 5°", "knee: 5"),
    row("minus of a word processor", edit(CURL, "from: {hip: 10", "from: {hip: −10"), "wrong-type", "hip: −10", "without quotes: -10"),
    row("range of angles", edit(CURL, "from: {hip: 10, knee: 5}", "from: {hip: 10, knee: 5-10}"), "wrong-type", "5-10", "one number"),
    row("list where one word stands", edit(CURL, re.compile(r"equipment: \[(.*)\]"), r"equipment: \1"), "wrong-type", "equipment:",
        "[prone-leg-curl-machine]"),
    row("load by its kind alone", edit(CURL, re.compile(r"load: \{.*\}"), "load: machine"), "wrong-type", "load:", "{kind: machine}"),
    row("impossible angle", edit(CURL, "to: {hip: 10, knee: 105}", "to: {hip: 10, knee: 250}"), "joint-range", "knee: 250", "250"),
    row("unknown joint", edit(CURL, "from: {hip: 10, knee: 5}", "from: {hip: 10, kne: 5}"), "known-term", "kne: 5", "`knee`"),
    row("review in the future", edit(CURL, "reviewed: 2026", "reviewed: 2062"), "review-date", "reviewed:", "future"),
    row("date with points", edit(CURL, re.compile(r"reviewed: \S+"), "reviewed: 25.11.2026"), "wrong-type", "reviewed:", "year-month-day"),
    row("no such day", edit(CURL, re.compile(r"reviewed: \S+"), "reviewed: 2026-02-30"), "wrong-type", "reviewed:", "year-month-day"),
    row("start and end alike", edit(CURL, "knee: 105}", "knee: 5}"), "hold-said", "movement:", "nothing moves", "`hold: true`"),
    # --- names and other exercises ----------------------------------------------------------------------------------
    row("other name of another exercise", edit(CURL, "also_called: [", "also_called: [Seated leg curl, "), "name-once",
        "name: Seated leg curl",
        "`prone-leg-curl`", "prone-leg-curl.yaml:2", "that you changed", file=SEATED),
    row("other name twice", edit(CURL, "also_called: [", "also_called: [Lying leg curl, "), "name-once", "also_called:", "already"),
    row("name of another exercise in capitals", edit(CURL, "name: Prone leg curl", "name: SEATED LEG CURL"), "name-once",
        "name: Seated leg curl", "prone-leg-curl.yaml:1", "that you changed", file=SEATED),
    row("unknown swap", edit(CURL, "swaps: [seated-leg-curl", "swaps: [seatd-leg-curl"), "known-exercise", "swaps:", "`seated-leg-curl`"),
    row("swap by another name", edit(SEATED, "swaps: [prone-leg-curl", "swaps: [lying-leg-curl"), "known-exercise", "swaps:",
        "`prone-leg-curl`", "also called lying leg curl", file=SEATED),
    row("swap by its name", edit(CURL, "swaps: [seated-leg-curl", "swaps: [Seated leg curl"), "wrong-value", "swaps:", "seated-leg-curl"),
    row("equipment in capitals", edit(CURL, "equipment: [", "equipment: [Dumbbell, "), "wrong-value", "equipment:", "first: dumbbell"),
    row("swap with itself", edit(CURL, "swaps: [seated-leg-curl", "swaps: [prone-leg-curl"), "swap-once", "swaps:", "its own swap"),
    row("swap twice", edit(CURL, "swaps: [", "swaps: [standing-leg-curl, "), "swap-once", "swaps:", "second time"),
    row("equipment twice", edit(CURL, "equipment: [", "equipment: [prone-leg-curl-machine, "), "listed-once", "equipment:", "second time"),
    row("no swap", edit(CURL, re.compile(r"^swaps: .*\n", re.MULTILINE), ""), "swap-given", "", "no swap"),
    row("unknown equipment", edit(CURL, "equipment: [prone-leg-curl-machine", "equipment: [prone-leg-curl-machin"), "known-term",
        "equipment:",
        "`prone-leg-curl-machine`"),
    row("none beside a machine", edit(CURL, "equipment: [", "equipment: [none, "), "equipment-none", "equipment:",
        "`prone-leg-curl-machine`"),
    row("position by another word", edit(SEATED, "position: seated", "position: sitting"), "known-term", "position: sitting", "`seated",
        file=SEATED),
    row("two equipment entries of one name", edit(VOCABULARY, "  kettlebell: {name: Kettlebell", "  kettlebell: {name: Dumbbell"),
        "term-once",
        "kettlebell:", "`dumbbell` and `kettlebell`", file=VOCABULARY),
    row("question of an appraisal left out", edit(SIGNALS, re.compile(r"  rested: .*\n"), ""), "appraisal-complete", "appraisal:",
        "`rested`", "not stated", file=SIGNALS),
    row("answer without a reason", edit(SIGNALS, "rested: {answer: not stated", "rested: {answer: partly"), "wrong-value", "rested:",
        "`because:`", file=SIGNALS),
    row("range of a version the wrong way round", edit(VOCABULARY, "range: [0, 0.5]", "range: [0.5, 0]"), "version-range", "lower-half:",
        "before it starts", file=VOCABULARY),
    row("size of no dimension", edit(VOCABULARY, "outcome: growth, dimension: thickness, ", "outcome: growth, "), "wrong-value",
        "ultrasound-thickness:", "`dimension:`", file=VOCABULARY),
    row("signal with a dimension", edit(VOCABULARY, "outcome: activation, ", "outcome: activation, dimension: area, "), "wrong-value",
        "surface-emg:", "leave it out", file=VOCABULARY),
    # --- set credit and parts ---------------------------------------------------------------------------------------
    row("unknown credited part", edit(CURL, "hamstrings: direct", "hamstring: direct"), "known-part", "hamstring: direct", "`hamstrings`",
        most=4),
    row("muscle by another name", edit(CURL, "  hamstrings: direct", "  hamstrings: direct\n  biceps: indirect"), "known-part", "biceps:",
        "`elbow-flexors`", "also called biceps"),
    row("part by another name", edit(CURL, "  hamstrings: direct", "  hamstrings: direct\n  biceps/long-head: indirect"), "known-part",
        "biceps/long-head:", "`elbow-flexors/biceps-brachii-long-head`"),
    row("claimed part without credit", edit(CURL, "  hamstrings: direct", "  hamstrings/semimembranosus: direct"), "emphasis-credited",
        "hamstrings/semitendinosus", "set credit", most=3),
    row("unknown part", edit(CURL, "hamstrings/semitendinosus\n", "hamstrings/semitendinosos\n"), "known-part", "semitendinosos",
        "`hamstrings/semitendinosus`"),
    row("part without its muscle", edit(CURL, "- hamstrings/semitendinosus\n", "- semitendinosus\n"), "known-part", "- semitendinosus",
        "`hamstrings/semitendinosus`"),
    # --- claims -----------------------------------------------------------------------------------------------------
    row("no basis", _cites(""), "statement-basis", "- part:", "rests on nothing"),
    row("two bases", _cites("cites: [{key: maeo2021, at: abstract}]\n    common_practice: Coaches say so."), "statement-basis",
        "common_practice:", "keep `cites:`"),
    row("no citation in the list", _cites("cites: []"), "statement-basis", "- part:", "rests on nothing"),
    row("citation without a place", _cites("cites: [{key: maeo2021}]"), "citation-place", "maeo2021", "write where it stands"),
    row("misspelt place", _cites("cites: [{key: maeo2021, at: abstarct}]"), "place-read", "abstarct", "`abstract`"),
    row("place that was not read", _cites("cites: [{key: maeo2021, at: Table 2}]"), "place-read", "Table 2", "was not read",
        "`read = {abstract}`"),
    row("section that was not read", _cites("cites: [{key: maeo2021, at: results}]"), "place-read", "at: results", "was not read"),
    row("unknown reference", _cites("cites: [{key: maeo2012, at: abstract}]"), "known-reference", "maeo2012", "`maeo20", most=2),
    row("bare key", _cites("cites: maeo2021"), "wrong-type", "cites: maeo2021", "a list"),
    row("comparator is the exercise itself", edit(CURL, "less_than: {exercise: seated-leg-curl}", "less_than: {exercise: prone-leg-curl}"),
        "comparator-differs", "exercise: prone-leg-curl", "with itself"),
    row("comparator is the part itself", edit(CURL, "more_than: {part: hamstrings/biceps-femoris-long-head}",
                                              "more_than: {part: hamstrings/semitendinosus}"),
        "comparator-differs", "more_than: {part", "with itself"),
    row("comparison with nothing around it", edit(CURL, "less_than: {exercise: seated-leg-curl}", "less_than: seated-leg-curl"),
        "wrong-type", "less_than:", "one of its keys: exercise, part"),
    row("comparison with both", edit(CURL, "{exercise: seated-leg-curl}", "{exercise: seated-leg-curl, part: hamstrings}"), "wrong-value",
        "less_than:", "an exercise and a part", "one of the two"),
    row("key in capitals", _cites("cites: [{key: Maeo2021, at: abstract}]"), "wrong-value", "Maeo2021", "first: maeo2021"),
    row("DOI for a key", _cites("cites: [{key: 10.1249/MSS.0000000000002523, at: abstract}]"), "wrong-value", "10.1249", "references.bib"),
    row("keys alone", _cites("cites: [maeo2021]"), "wrong-type", "cites: [maeo2021]", "{key: maeo2021}"),
    row("two directions", edit(CURL, _CLAIM, f"    more_than: {{exercise: nordic-curl}}\n{_CLAIM}"), "wrong-value", "less_than:",
        "`more_than:` and `less_than:` at once", "keep the one direction"),
    row("claim twice", edit(CURL, _CITES, (
        "    cites: [{key: maeo2021, at: abstract}]\n  - part: [hamstrings/semitendinosus]\n    outcome: growth\n"
        "    less_than: {exercise: seated-leg-curl}\n    because: It is shorter.\n    cites: [{key: maeo2021, at: abstract}]" + _AFTER)),
        "claim-once", "- part: [hamstrings/semitendinosus]", "same claim"),
    row("claim against the numbers", edit(CURL, "less_than: {exercise: seated-leg-curl}", "more_than: {exercise: seated-leg-curl}"),
        "claims-agree", "- hamstrings/", "contradicts the one at", "seated-leg-curl.yaml:", "`maeo2021` reports that direction",
        "turn this claim",
        most=3),
    row("activation that talks of growth", edit(CURL, re.compile(r"(outcome: activation\n(?:.*\n)*?    because: ).*"),
                                                    r"\1The curl makes it grow."),
        "because-outcome", "because:", "`grow`", "activation"),
    # --- texts for clients ------------------------------------------------------------------------------------------
    row("cue twice", edit(CURL, "- do: See that your hips are still flat on the bench.", "- do: Rest the roller just above your heels."),
        "cue-once", "Rest the roller", "on line", "already"),
    row("cue to be written later", edit(CURL, "Rest the roller just above your heels.", "..."), "text-said", "do: ...", "says nothing"),
    row("cue of 30 words", edit(CURL, "Rest the roller just above your heels.", " ".join(["Rest the roller on your heels"] * 5) + "."),
        "client-length", "Rest the roller", "30 words"),
    row("HTML in a cue", edit(CURL, "Rest the roller", "Rest <b>the</b> roller"), "wrong-value", "<b>", "no markup"),
    row("link in a cue", edit(CURL, "Rest the roller", "Rest [the](https://example.org) roller"), "plain-text", "[the]", "a link"),
    row("bold in a cue", edit(CURL, "Rest the roller", "Rest **the** roller"), "plain-text", "**the**", "emphasis"),
    row("italics in a cue", edit(CURL, "Rest the roller", "Rest _the_ roller"), "plain-text", "_the_", "emphasis"),
    row("list in a cue", edit(CURL, "do: Rest the roller", "do: 1. Rest the roller"), "plain-text", "1. Rest", "a list"),
    row("address in a cue", edit(CURL, "Rest the roller", "See https://example.org and rest the roller"), "plain-text", "https:",
        "a web address"),
    row("bare address in a fault", edit(CURL, "say: Pin your belt", "say: See example.org and pin your belt"), "plain-text", "example.org",
        "a web address"),
    row("caution without a concern", edit(CURL, "    concerns: [lower-back]\n", ""), "caution-concerns", "- who:", "`concerns:`",
        "lower-back"),
    row("caution that asks the coach", edit(CURL, "ask: A licensed physiotherapist or doctor.", "ask: Your coach."), "caution-asks", "ask:",
        "no licensed professional"),
    row("caution that tells nobody", edit(CURL, "    ask: A licensed physiotherapist or doctor.",
        "    afterwards: The back is stiff the next morning.\n    ask: A licensed physiotherapist or doctor."), "caution-asks", "afterwards:",
        "whom to tell"),
    row("sign of the next day that ends the set", edit(CURL, "stop_if: Back pain grows, or", "stop_if: The back aches at night, or"),
        "caution-red-flags", "stop_if:", "`night`", "afterwards"),
    row("word of the trade in a cue", edit(CURL, "do: Rest the roller", "do: Brace and rest the roller"), "client-words", "do: Brace",
        "`brace`", "tighten your belly"),
    row("word of the trade in a fault", edit(CURL, "say: Pin your belt", "say: Keep the stance and pin your belt"), "client-words",
        "say: Keep the stance", "how wide you stand"),
    # --- references -------------------------------------------------------------------------------------------------
    row("DOI with a slip", edit(BIB, "doi = {10.1136/", "doi = {1.1136/"), "reference-identifier", "doi = {1.1136", "not a DOI", file=BIB),
    row("DOI as an address", edit(BIB, "doi = {10.1136/", "doi = {https://doi.org/10.1136/"), "reference-identifier", "doi = {https",
        "bare DOI",
        file=BIB),
    passes("DOI with another digit", edit(BIB, "10.1136/bjsports-2016-096130", "10.1136/bjsports-2016-096131")),
    row("paper twice", whole(BIB, _append(_OTHER_RECORD.replace("10.1000/zz.1", "10.1136/bjsports-2016-096130"))), "reference-once",
        "@article{bourne2017", "same DOI", "zz2020", file=BIB, most=2),
    row("reference that nothing cites", whole(BIB, _append(_OTHER_RECORD)), "reference-used", "@article{zz2020", "nothing cites", file=BIB),
    row("comma missing in a record", edit(BIB, "year = {2017},\n", "year = {2017}\n"), "bibtex-syntax", "volume = {51}",
        "comma after the field",
        file=BIB),
    row("brace not closed", edit(BIB, "journal = {British Journal of Sports Medicine},", "journal = {British Journal of Sports Medicine,"),
        "bibtex-syntax", "journal = {British", "braces", file=BIB),
    row("letter in a year", edit(BIB, "year = {2017}", "year = {2O17}"), "wrong-value", "year = {2O17}", "four digits", file=BIB),
    row("year to come", edit(BIB, "year = {2017}", "year = {2107}"), "reference-year", "year = {2107}", "future", file=BIB),
    row("address that runs a program", edit(BIB, "  pmid = {27660368},", "  pmid = {27660368},\n  url = {javascript:alert(1)},"),
        "wrong-value",
        "url =", "https://", file=BIB),
    row("authors with commas only",
        edit(BIB, re.compile(r"author = \{Bourne, M\. N\. and Duhig, S\. J\. and "), "author = {Bourne, Duhig, Timmins, Shield and "),
        "wrong-value", "author = {Bourne", "commas", file=BIB),
    row("record twice", whole(BIB, _append(_OTHER_RECORD.replace("zz2020", "bourne2017"))), "duplicate-key", "@article{bourne2017",
        "is taken", file=BIB),
    row("authors as in a reference list", edit(BIB, re.compile(r"author = \{Bourne[^}]*\}"), "author = {Bourne MN, Duhig SJ, Timmins RG}"),
        "wrong-value", "author = {Bourne MN", "a suffix like Jr", "write `and`", file=BIB),
    row("capital in a key", edit(BIB, "@article{bourne2017,", "@article{Bourne2017,"), "bad-key", "Bourne2017", "first: bourne2017", file=BIB),
    row("field of an export", edit(BIB, "  pmid = {27660368},", "  pmid = {27660368},\n  abstract = {Text},"), "unknown-key", "abstract =",
        "take it out", file=BIB),
    row("HTML in a title", edit(BIB, "title = {Impact of the", "title = {Impact of <i>the</i>"), "wrong-value", "title = {Impact", "markup",
        file=BIB),
    row("merge conflict in the bibliography", edit(BIB, "@article{bourne2017,", "<<<<<<< HEAD\n@article{bourne2017,"), "merge-conflict",
        "<<<<<<<",
        "merge conflict", file=BIB),
    row("no word of what was read", edit(BIB, "  read = {abstract},\n", ""), "missing-key", "@article{andrews2025", "full text, abstract",
        file=BIB),
    row("reference that nobody can find",
        edit(BIB, re.compile(r"  doi = \{10\.1016/j\.jshs.*?pmcid = \{PMC11863337\},\n(.*?)  readat = .*?\n", re.DOTALL), r"\1"),
        "reference-found", "@article{andrews2025", "no identifier", file=BIB),
    # --- studies ----------------------------------------------------------------------------------------------------
    row("wrong arm in a contrast", edit(CURLS, "{of: incline, against: preacher", "{of: inclin, against: preacher"), "study-arms",
        "of: inclin,",
        "`incline`", file=CURLS),
    row("wrong arm in the values", edit(SIGNALS, "      press: {mean: 33.3}", "      pres: {mean: 33.3}"), "study-arms", "pres: {mean",
        "`press`",
        file=SIGNALS),
    row("arm of an unknown exercise", edit(SIGNALS, "exercise: bench-press", "exercise: bench-pres"), "known-exercise", "bench-pres,",
        "`bench-press`", file=SIGNALS),
    row("arm against itself", edit(CURLS, "{of: incline, against: preacher", "{of: incline, against: incline"), "study-arms",
        "against: incline",
        "against itself", file=CURLS),
    row("arm taken out", whole(SIGNALS, _without_arm), "study-arms", "fly: {mean", "no arm `fly`", "places", file=SIGNALS),
    passes("arm that nothing uses", edit(CURLS, "arms:\n", "arms:\n  rest: {called: no training}\n")),
    row("spread as text", _press("{mean: 33.3, sd: about 5}"), "wrong-type", "sd: about", "a number", file=SIGNALS),
    row("spread with a sign", _press("{mean: 33.3, sd: ±5}"), "wrong-type", "sd: ±5", "sd: 5", file=SIGNALS),
    row("mean and spread in one", _press("{mean: 33.3 ± 5}"), "wrong-type", "33.3 ± 5", "mean: 33.3, sd: 5", file=SIGNALS),
    row("spread in brackets", _press("{mean: 33.3 (5.1)}"), "wrong-type", "33.3 (5.1)", "mean: 33.3, sd: 5.1", file=SIGNALS),
    row("two spreads", _press("{mean: 33.3, sd: 5, se: 2}"), "wrong-value", "press:", "more than one spread", "keep one", file=SIGNALS),
    row("key of a spread in capitals", _press("{mean: 33.3, SD: 5}"), "unknown-key", "SD:", "did you mean `sd`", file=SIGNALS),
    row("unit behind a number", _press("{mean: 33.3 mV}"), "wrong-type", "33.3 mV", "mean: 33.3", file=SIGNALS),
    row("comma between thousands", _press('{mean: "1,233.3"}'), "wrong-type", "1,233.3", "without commas: 1233.3", file=SIGNALS),
    row("interval as text", _press("{mean: 33.3, ci95: 30 to 36}"), "wrong-type", "30 to 36", "[30, 36]", file=SIGNALS),
    row("decimal comma", _press("{mean: 33,3}"), "unknown-key", "33,3", "comma", "decimal point: 33.3", file=SIGNALS),
    row("nobody", edit(CURLS, "n: 63", "n: 0"), "wrong-value", "n: 0", "above 0", file=CURLS),
    row("people with a word", edit(CURLS, "n: 63", "n: 63 women"), "wrong-type", "n: 63 women", "whole number", file=CURLS),
    row("more women than people", edit(CURLS, "women: 63", "women: 65"), "study-numbers", "women: 65", "65 women among 63", file=CURLS),
    row("arms that do not add up", edit(CURLS, "n: 33}", "n: 43}"), "arm-sizes", "n: 63", "63 people", "73", file=CURLS),
    row("arms of too few", edit(CURLS, "n: 33}", "n: 23}"), "arm-sizes", "n: 63", "53", "`others:`", file=CURLS),
    row("spread below 0", _press("{mean: 33.3, sd: -5}"), "wrong-value", "sd: -5", "at least 0", file=SIGNALS),
    row("spread of 0", _press("{mean: 33.3, sd: 0}"), "study-numbers", "sd: 0", "leave out", file=SIGNALS),
    row("change in quotes with a sign", edit(GROWTH, "change_percent: 14", 'change_percent: "14%"'), "wrong-type", "14%", "alone: change_percent: 14",
        file=GROWTH),
    row("change with a sign", edit(GROWTH, "change_percent: 14", "change_percent: 14%"), "wrong-type", "14%", "alone: change_percent: 14",
        file=GROWTH),
    row("change a hundred times too large", edit(GROWTH, "change_percent: 14", "change_percent: 1400"), "study-sizes", "1400", "1400 %",
        "slipped", file=GROWTH),
    row("direction against the values", edit(GROWTH, "favours: of", "favours: against"), "study-direction", "favours: against",
        "seated has 14",
        file=GROWTH, most=2),
    row("p above 1", _contrast("{of: incline, against: preacher, test: between, favours: of, p: 1.2}"), "wrong-value", "p: 1.2",
        "at most 1", file=CURLS),
    row("p of 0", _contrast("{of: incline, against: preacher, test: between, favours: of, p: 0}"), "wrong-value", "p: 0}", "above 0",
        file=CURLS),
    row("p with its stars", _contrast("{of: incline, against: preacher, test: between, favours: of, p: 0.03*}"), "wrong-type", "0.03*",
        "p: 0.03", file=CURLS),
    row("p as not significant", _contrast("{of: incline, against: preacher, test: between, p: n.s.}"), "wrong-type", "n.s.", "leave `p:` out",
        file=CURLS),
    row("p as a bound", _contrast("{of: incline, against: preacher, test: between, favours: of, p: <0.05}"), "wrong-type", "p: <0.05",
        "`p_below: 0.05`",
        file=CURLS),
    row("p as a bound in quotes", _contrast('{of: incline, against: preacher, test: between, favours: of, p: "> .05"}'), "wrong-type",
        "> .05",
        "`p_above: 0.05`", file=CURLS),
    passes("p without its nought",
        edit(CURLS, re.compile(r"(\{of: incline, against: preacher,.*?)(, difference)"), r"\1, p: .04\2")),
    row("interval reversed", edit(CURLS, "ci95: [0.02, 0.13]", "ci95: [0.13, 0.02]"), "study-numbers", "[0.13, 0.02]", "from 0.13 to 0.02",
        file=CURLS),
    row("interval with decimal commas", edit(CURLS, "ci95: [0.02, 0.13]", "ci95: [0,02, 0,13]"), "wrong-value", "[0,02", "[0.02, 0.13]",
        file=CURLS),
    row("interval beside its value", edit(CURLS, "ci95: [0.02, 0.13]", "ci95: [0.2, 1.3]"), "study-numbers", "[0.2, 1.3]", "does not hold",
        file=CURLS),
    row("direction against the difference", edit(CURLS, "difference: {value: 0.08, unit: cm, ci95: [0.02, 0.13]}",
                                                 "difference: {value: -0.08, unit: cm, ci95: [-0.13, -0.02]}"),
        "study-direction", "value: -0.08", "the difference is -0.08", file=CURLS),
    row("misspelt unit", edit(CURLS, "unit: cm\n", "unit: cmm\n"), "unit-known", "unit: cmm", "cm", file=CURLS),
    row("one difference in another unit", edit(CURLS, "value: 0.08, unit: cm", "value: 0.08, unit: mm"), "unit-known", "unit: mm", "in cm",
        file=CURLS),
    row("study without a reference", move(CURLS, "studies/kassianno2025.yaml"), "study-reference", "", "`kassiano2025`",
        file="studies/kassianno2025.yaml"),
    row("cited study lacks the exercise", _cites("cites: [{key: kassiano2025, at: abstract}]"), "claim-measured", "kassiano2025",
        "no cited study measured growth", most=3),
    row("unknown measure", edit(CURLS, "measure: ultrasound-thickness", "measure: ultrasound-thicknes"), "known-term", "thicknes\n",
        "`ultrasound-thickness`", file=CURLS),
    row("weeks below 0", edit(CURLS, "weeks: 8", "weeks: -8"), "wrong-value", "weeks: -8", "above 0", file=CURLS),
    row("weeks with a word", edit(CURLS, "weeks: 8", "weeks: 8 weeks"), "wrong-type", "weeks: 8 weeks", "a number", file=CURLS),
    row("growth without weeks", edit(CURLS, "weeks: 8\n", ""), "study-weeks", "", "how many weeks", file=CURLS),
    row("result without a place", edit(CURLS, "    at: abstract\n", ""), "wrong-value", "- parts:", "give `at:`", file=CURLS),
    row("table of a study that was not read", edit(CURLS, "at: abstract", "at: Table 3"), "place-read", "at: Table 3", "was not read",
        file=CURLS),
    row("contrast both ways round", whole(SIGNALS, _same_people), "study-direction", "of: bench, against: press", "press 33.3",
        file=SIGNALS),
    row("accent that cannot be read", _accent('"#e8a33d"'), "palette-contrast", "light:", "write another shade, such as `light: ",
        file=HANDBOOK),
    row("accent without its quotation marks", _accent("#155e5b"), "wrong-value", "light:", "put it in quotation marks", file=HANDBOOK),
    row("accent in capitals", _accent('"#155E5B"'), "wrong-value", "light:", "six small digits", file=HANDBOOK),
    passes("accent of one's own", _accent('"#8a2f55"')),
]
# fmt: on
