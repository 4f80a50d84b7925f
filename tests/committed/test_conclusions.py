"""Conclusions as committed files: what they hold."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import yaml
from folders import DEMO, ROOT, SHIPPED

from build_tools.catalog.load import load
from build_tools.committed import conclusions as layout
from build_tools.committed import files as committed
from build_tools.committed.files import FOLDER
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.model.slope import LengthSlope

CURL = f"{FOLDER}/exercises/crate-curl.yaml"
LANTERN = f"{FOLDER}/muscles/lantern.yaml"
LONG = "lantern/long-head"


def texts(root: Path) -> dict[str, str]:
    catalog = load(root, "demo")
    return committed.files(conclude(catalog), catalog)


def test_one_file_for_each_exercise_and_muscle() -> None:
    assert list(texts(DEMO)) == [
        f"{FOLDER}/{name}.yaml"
        for name in ("exercises/cable-curl", "exercises/crate-curl", "muscles/lantern")
    ]


def test_what_a_file_says_of_a_claim() -> None:
    """The demo's p < 0.01 with 17 degrees of freedom is t = 2.898 (any t table): ln(1.14/1.09) = 0.0449, and the study's own interval
    is at widest 0.0449 x (1 -+ 2.110/2.898), that is 1.2% to 8.1% more. What studies like it find is wider, never narrower."""
    [grown, felt] = yaml.safe_load(texts(DEMO)[CURL])["claims"]
    assert (grown["claim"], grown["outcome"], grown["says"], grown["basis"], grown["finding"]) == (
        "crate-curl/1",
        "growth",
        "more than cable-curl",
        "cited",
        "hinted",
    )
    [part] = grown["parts"]
    low, high = part.pop("interval")
    assert low < 1.012 and high > 1.081
    ahead, changed = part.pop("chance of more"), part.pop("changed by one more study")
    assert 0.5 < ahead < 1 and 0 <= changed <= 1
    assert part == {
        "part": "lantern/long-head",
        "finding": "hinted",
        "side": "more",
        "dimension": "volume",
        "ratio": 1.05,
        "spread": "borrowed",
        "studies": 1,
        "people": 18,
        "rests on": ["wick2030"],
        "certainty": grown["certainty"],
        "to settle": part["to settle"],
    }
    assert (
        felt["finding"] == "not studied"
        and "certainty" not in felt
        and felt["basis"] == "common practice"
    )


def test_what_a_file_says_of_length() -> None:
    """By hand, for a fifth of the range: exp(0.09 / 5) = 1.0182, exp(0.01 / 5) = 1.0020, exp(0.17 / 5) = 1.0346, exp(0.05 / 5) = 1.0101."""
    catalog = load(DEMO, "demo")
    conclusions = conclude(catalog)
    conclusions.slopes["lantern"] = LengthSlope(
        mean=0.09,
        low=0.01,
        high=0.17,
        more=0.987,
        studies=("glow2031", "wick2030"),
        people=30,
        prior=(0.05, 0.05),
        differences=(0.1, 0.4),
    )
    written = yaml.safe_load(committed.files(conclusions, catalog)[LANTERN])
    assert written["length"] == {
        "per fifth of the range": "1.8%",
        "interval": [0.2, 3.5],
        "expected before": "1.0%",
        "chance of more": 0.99,
        "studies": ["glow2031", "wick2030"],
        "people": 30,
    }
    assert "length" not in yaml.safe_load(texts(DEMO)[LANTERN])


def test_a_wider_measurement_says_so() -> None:
    catalog = load(DEMO, "demo")
    conclusions = conclude(catalog)
    [(key, field)] = [
        (key, field) for key, field in conclusions.fields.items() if key[:2] == (LONG, "growth")
    ]
    wide = [replace(c, measured="whole") for c in field.comparisons]
    conclusions.fields[key] = replace(field, comparisons=tuple(wide))
    [written] = [
        field
        for field in yaml.safe_load(committed.files(conclusions, catalog)[LANTERN])["fields"]
        if (field["part"], field["outcome"]) == (LONG, "growth")
    ]
    assert {c["measured"] for c in written["comparisons"]} == {"whole"}


def test_the_same_catalog_gives_the_same_bytes_in_any_process() -> None:
    program = (
        "import sys, hashlib; from pathlib import Path; from build_tools.catalog.load import load\n"
        "from build_tools.committed import files as committed; from build_tools.evidence.claims.conclude import conclude\n"
        "catalog = load(Path(sys.argv[1]), 'demo'); texts = committed.files(conclude(catalog), catalog)\n"
        "print(hashlib.sha256(repr(texts).encode()).hexdigest())"
    )
    seen = {
        subprocess.run(
            [sys.executable, "-c", program, str(DEMO)],
            capture_output=True,
            text=True,
            check=True,
            timeout=120,
            env={
                **os.environ,
                "PYTHONHASHSEED": seed,
                "PYTHONPATH": str(ROOT),
            },
        ).stdout
        for seed in ("1", "2")
    }
    assert len(seen) == 1


def test_every_key_is_described_and_no_other() -> None:
    """Over the shipped conclusions, so that the fields of the data set are told in full."""
    used: dict[str, set[str]] = {"claim": set(), "pair": set(), "answer": set()}
    for path in (SHIPPED / FOLDER).rglob("*.yaml"):
        data = yaml.load(path.read_text(encoding="utf-8"), yaml.CSafeLoader)
        for claim in data.get("claims", ()):
            used["claim"] |= claim.keys()
            used["answer"] |= {key for part in claim["parts"] for key in part}
        for pair in (pair for field in data.get("fields", ()) for pair in field["comparisons"]):
            used["pair"] |= pair.keys() - layout.ANSWER_KEYS.keys()
            used["answer"] |= pair.keys() - layout.PAIR_KEYS.keys()
    described = (layout.CLAIM_KEYS, layout.PAIR_KEYS, layout.ANSWER_KEYS)
    assert list(used.values()) == [set(keys) for keys in described]
