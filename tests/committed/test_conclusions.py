"""Conclusions as committed files: what they hold."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import yaml
from folders import DEMO, ROOT

from build_tools.catalog.load import load
from build_tools.committed import files as committed
from build_tools.committed.files import FOLDER
from build_tools.evidence.claims.conclude import conclude

CURL = f"{FOLDER}/exercises/crate-curl.yaml"


def texts(root: Path) -> dict[str, str]:
    catalog = load(root, "demo")
    return committed.files(conclude(catalog), catalog)


def test_one_file_for_each_exercise_and_muscle() -> None:
    assert list(texts(DEMO)) == [
        f"{FOLDER}/{name}.yaml"
        for name in ("exercises/cable-curl", "exercises/crate-curl", "muscles/lantern")
    ]


def test_what_a_file_says_of_a_claim() -> None:
    """The demo's p < 0.01 with 17 degrees of freedom is t = 2.898 (any t table): ln(1.14/1.09) = 0.0449, and the interval is
    0.0449 x (1 -+ 2.110/2.898), that is 1.2% to 8.1% more."""
    [grown, felt] = yaml.safe_load(texts(DEMO)[CURL])["claims"]
    assert (grown["claim"], grown["outcome"], grown["says"], grown["basis"], grown["verdict"]) == (
        "crate-curl/1",
        "growth",
        "more than cable-curl",
        "cited",
        "shown",
    )
    [part] = grown["parts"]
    assert part == {
        "part": "lantern/long-head",
        "shape": "more",
        "ratio": 1.05,
        "interval": "not known, only a bound on p",
        "path": "direct",
        "studies": 1,
        "people": 18,
        "certainty": grown["certainty"],
    }
    assert (
        felt["verdict"] == "untested"
        and "certainty" not in felt
        and felt["basis"] == "common practice"
    )


def test_nothing_says_how_studies_differ_where_there_is_only_one() -> None:
    fields = yaml.safe_load(texts(DEMO)[f"{FOLDER}/muscles/lantern.yaml"])["fields"]
    components = [component for field in fields for component in field["components"]]
    assert components and not any({"tau2", "i2"} & component.keys() for component in components)


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
