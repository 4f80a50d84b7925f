"""Slips in the demo catalog that have one right answer, and near ones that have several."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

CRATE, CABLE = "exercises/crate-curl.yaml", "exercises/cable-curl.yaml"
STUDY, BIB, LANTERN = "studies/wick2030.yaml", "references.bib", "muscles/lantern.yaml"


class Slip(NamedTuple):
    """A text of a file, what somebody wrote instead, and what a mend makes of it: by default the text again."""

    file: str
    text: str
    slip: str
    rule: str = ""
    mended: str | None = None

    def make(self, catalog: Path) -> None:
        path = catalog / self.file
        before = path.read_bytes().decode("utf-8")
        assert self.text in before, self
        path.write_bytes(before.replace(self.text, self.slip, 1).encode("utf-8"))


MENDED = {
    "swap twice": Slip(CRATE, "[cable-curl]", "[cable-curl, cable-curl]", "swap-once"),
    "swap twice, a line each": Slip(
        CABLE,
        "swaps: [crate-curl]\n",
        "swaps:  # same job\n  - crate-curl  # on a crate\n  # and again\n  - crate-curl  # oh\n",
        "swap-once",
        "swaps:  # same job\n  - crate-curl  # on a crate\n  # and again\n",
    ),
    "swap three times": Slip(
        LANTERN, "crosses: [knee]", "crosses: [knee,knee , knee]", "listed-once"
    ),
    "equipment twice": Slip(CRATE, "[crate]", "[crate, crate]", "listed-once"),
    "name twice": Slip(CRATE, "lamp curl]", "lamp curl, Box-curl]", "name-once"),
    "own name again": Slip(CRATE, "[box curl", "[crate curl, box curl", "name-once"),
    "place cited twice": Slip(
        CABLE,
        "[{key: glow2031, at: Table 2}]",
        "[{key: glow2031, at: Table 2}, {at: Table 2, key: glow2031}]",
        "citation-once",
    ),
    "key twice with one value": Slip(
        CABLE, "sides: one\n", "sides: one\nsides: one  # really\n", "duplicate-key"
    ),
    "key twice on a line": Slip(
        STUDY, "standing: {change_percent: 9, sd: 4}", "standing: {change_percent: 9, sd: 4, sd: 4}",
        "duplicate-key",
    ),
    "curly quotes": Slip(CRATE, "name: Crate curl", "name: “Crate curl”", "quoted-value"),
    "curly quotes in straight ones": Slip(
        CRATE, "name: Crate curl", 'name: "„Crate: curl“"', "quoted-value", 'name: "Crate: curl"'
    ),
    "zero-width space": Slip(CRATE, "do: Sit tall", "do: Sit\u200b tall", "wrong-value"),
    "mark of direction": Slip(LANTERN, "summary: An", "summary: \u200eAn", "wrong-value"),
    "byte order mark within": Slip(CABLE, "do: Stand", "do: \ufeffStand", "file-encoding"),
    "zero-width space in a record": Slip(BIB, "{Glow, Dee}", "{Glow,\u200b Dee}", "wrong-value"),
    "odd indentation": Slip(CRATE, "  position", "\u00a0 position", "yaml-syntax"),
    "odd space after a key": Slip(LANTERN, "region: lamp", "region:\u202flamp", "yaml-syntax"),
    "day first": Slip(CRATE, "reviewed: 2026-11-01", "reviewed: 29/10/2026  # told", "wrong-type",
                      "reviewed: 2026-10-29  # told"),
    "month first": Slip(CABLE, "reviewed: 2026-10-01", "reviewed: 9/30/2026", "wrong-type",
                        "reviewed: 2026-09-30"),
    "points": Slip(LANTERN, "reviewed: 2026-11-01", "reviewed: 31.10.2026", "wrong-type",
                   "reviewed: 2026-10-31"),
    "one day twice": Slip(CABLE, "reviewed: 2026-10-01", "reviewed: 10.10.2026", "wrong-type",
                          "reviewed: 2026-10-10"),
    "year first": Slip(CABLE, "reviewed: 2026-10-01", "reviewed: 2026/10/1", "wrong-type"),
    "bound of p": Slip(STUDY, "p_below: 0.01", "p: <0.01", "wrong-type"),
    "bound of p in quotes": Slip(STUDY, "p_below: 0.01", 'p: "< .01"', "wrong-type"),
    "bound of p from a page's source": Slip(STUDY, "p_below: 0.01", "p: '&lt;0.01'", "wrong-type"),
    "other bound of p": Slip(
        STUDY, "p_below: 0.01", "p: '> 0.05'", "wrong-type", "p_above: 0.05"
    ),
    "number in quotes": Slip(CRATE, "knee: 100", 'knee: "100"', "wrong-type"),
    "one of a list": Slip(CRATE, "[crate]", "crate", "wrong-type"),
    "part without brackets": Slip(
        CABLE, "[lantern/short-head]", "lantern/short-head  # it", "wrong-type",
        "[lantern/short-head]  # it",
    ),
    "DOI as an address": Slip(
        BIB, "{10.0000/invented.1}", "{https://doi.org/10.0000/invented.1}", "reference-identifier"
    ),
    "DOI as an older address": Slip(
        BIB, "{10.0000/invented.2}", "{http://dx.doi.org/10.0000/invented.2}", "reference-identifier"
    ),
    "DOI with its name": Slip(
        BIB, "{10.0000/invented.3}", "{doi:10.0000/invented.3}", "reference-identifier"
    ),
    "PubMed address": Slip(
        BIB, "{900000001}", "{https://pubmed.ncbi.nlm.nih.gov/900000001/}", "reference-identifier"
    ),
}  # fmt: skip
#: What only the author can answer; the file stays as it is, byte for byte.
LEFT = {
    "day or month": Slip(CRATE, "reviewed: 2026-11-01", "reviewed: 05/06/2026", "wrong-type"),
    "no day": Slip(CRATE, "reviewed: 2026-11-01", "reviewed: 31/11/2026", "wrong-type"),
    "its own swap": Slip(CRATE, "[cable-curl]", "[cable-curl, crate-curl]", "swap-once"),
    "at most": Slip(STUDY, "p_below: 0.01", "p: <=0.01", "wrong-type"),
    "two bounds": Slip(STUDY, "p_below: 0.01", "p_below: 0.05, p: <0.01", "wrong-type"),
    "two words for a list": Slip(CRATE, "[crate]", "crate and cable", "wrong-type"),
    "key for a citation": Slip(CABLE, "[{key: glow2031, at: Table 2}]", "glow2031", "wrong-type"),
    "thousands or thousandths": Slip(CRATE, "knee: 100", 'knee: "1,000"', "wrong-type"),
    "two values": Slip(CABLE, "sides: one\n", "sides: one\nsides: both\n", "duplicate-key"),
    "vertical tab": Slip(CABLE, "do: Stand", "do: \x0bStand", "file-encoding"),
    "name of another": Slip(CRATE, "[box curl", "[standing cable curl, box curl", "name-once"),
    "address of no DOI": Slip(
        BIB, "{10.0000/invented.1}", "{https://example.org/10.0000/x}", "reference-identifier"
    ),
    "odd space and a slip": Slip(
        CRATE, "  position: seated", "\u00a0 position: [seated", "yaml-syntax"
    ),
}
