"""The explanation of a claim: every step's numbers are those of the engine, and one chain is worked by hand."""

from __future__ import annotations

import re
import shutil
from math import log, sqrt
from pathlib import Path
from textwrap import indent

import numpy as np
import pytest
from catalogs import DEMO, SHIPPED
from scipy import stats

from build_tools.catalog.load import load
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Conclusions
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.explain.claim import by_id, explain
from build_tools.evidence.settings import settings


def chain(root: Path, claim: str) -> str:
    """The explanation with every text on one line."""
    catalog = load(root, "demo")
    return re.sub(r"\n +(?=\S)", " ", explain(catalog, conclude(catalog), claim))


def test_a_chain_worked_by_hand() -> None:
    """p < 0.01, 18 people: t tables give 2.898 for 17 degrees of freedom (two-sided 0.01). ln(1.14 / 1.09) = 0.04485.
    Certainty: a trial (high), one level for some concerns, two for an interval with differences that matter both ways, and
    what was read allows no more than moderate: very low."""
    told = chain(DEMO, "crate-curl/1")
    assert told.startswith("crate-curl/1  demo/exercises/crate-curl.yaml:11:5\n")
    for step in (
        "Cites: wick2030 (abstract)",
        "wick2030: within-participant, 18 people, 12 weeks; read: abstract",
        "Printed: Seated crate curl 14%, standing cable curl 9%; p < 0.01 (abstract)",
        "only a bound on p is printed, which does not say how wide the spread is",
        "Weighed as: log ratio 0.04485; a test, at t = 2.898, found the first ahead; a standard error borrowed",
        "What is weighed: measurements of the part itself, by volume.",
        "Spread between studies: half-normal of scale 0.03 (log ratio)",
        "exp(0.04485) = 1.046",
        "With half the spread between studies expected: 1.046",
        "One more study of 18 people changes the finding with a chance of",
        "Certainty: very low",
        "at most moderate: ",
        "Finding: hinted. The estimate is 4.6% more",
    ):
        assert step in told, step
    catalog = load(DEMO, "demo")
    assert told.endswith(f"Certainty: very low. {conclude(catalog).of('crate-curl')[0].sentence}\n")


# Every way a paper can print a result; what is laid over the demo's study of activation.
PRINTED = {
    "SDs, same people": "same_people: true\nvalues: {a: {mean: 61, sd: 12}, b: {mean: 50, sd: 11}}",
    "SEs, different people": "same_people: false\nvalues: {a: {mean: 61, se: 3.5}, b: {mean: 50, se: 2.5}}",
    "intervals": "same_people: false\nvalues: {a: {mean: 61, ci95: [55, 67]}, b: {mean: 50, ci95: [45, 55]}}",
    "medians": "same_people: false\nvalues: {a: {median: 61, quartiles: [50, 70]}, b: {median: 50, quartiles: [40, 61]}}",
    "SDs and a paired p": "same_people: true\nvalues: {a: {mean: 61, sd: 12}, b: {mean: 50, sd: 11}}\n"
    "contrasts: [{of: a, against: b, favours: of, p: 0.01, test: between}]",
    "t": "same_people: true\nvalues: {a: {mean: 61}, b: {mean: 50}}\ncontrasts: [{of: a, against: b, favours: of, t: 2.5, test: between}]",
    "p": "same_people: false\nvalues: {a: {mean: 61}, b: {mean: 50}}\n"
    "contrasts: [{of: b, against: a, favours: against, p: 0.03, test: between}]",
    "a ratio with its interval": "same_people: true\n"
    "contrasts: [{of: a, against: b, favours: of, ratio: {value: 1.22, ci95: [1.05, 1.4]}, test: between}]",
    "a ratio with p": "same_people: true\ncontrasts: [{of: a, against: b, favours: of, ratio: {value: 1.22}, p: 0.004, test: between}]",
    "a difference": "same_people: true\nvalues: {a: {mean: 61}, b: {mean: 50}}\n"
    'contrasts: [{of: a, against: b, favours: of, difference: {value: 11, unit: "% MVIC", se: 4}, test: between}]',
}


def write_study(root: Path, printed: str) -> None:
    same_people, rest = printed.split("\n", 1)
    (root / "studies" / "glow2031.yaml").write_text(
        f"""\
design: within-participant
{same_people}
people: {{n: 24}}
arms:
  a: {{exercise: cable-curl, called: cable curl, n: 12}}
  b: {{exercise: crate-curl, called: crate curl, n: 12}}
results:
  - parts: [lantern/short-head]
    measure: surface-emg
    unit: "% MVIC"
    at: Table 2
{indent(rest, "    ")}
says: Invented.
""",
        encoding="utf-8",
    )


@pytest.mark.parametrize("printed", PRINTED.values(), ids=PRINTED)
def test_the_spread_in_words_is_the_spread_that_is_pooled(printed: str, tmp_path: Path) -> None:
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    write_study(root, printed)
    told = chain(root, "cable-curl/1")
    words, pooled = told.split("Its own ratio:")
    said = re.findall(r"standard error (?:of )?(?:at most )?([0-9.e-]+?)[.,]?(?= |$)", words)
    assert said[-1] == re.search(r"\(standard error ([0-9.e-]+),", pooled)[1]
    ratio = conclude(load(root, "demo")).of("cable-curl")[0].comparisons[0].estimate
    assert f"(ratio {ratio.ratio:.4g}, {ratio.low:.4g} to {ratio.high:.4g})" in pooled, "the answer"


def assert_told(root: Path, ids: list[str] | None, conclusions: Conclusions) -> None:
    catalog = load(root, "catalog")
    engine = Engine(catalog, settings(catalog))
    for id, conclusion in by_id(conclusions).items():
        if ids is not None and id not in ids:
            continue
        told = explain(catalog, conclusions, id, engine)
        assert all(len(line) <= 100 for line in told.splitlines())
        flat = " ".join(told.split())
        assert " ".join(conclusion.sentence.split()) in flat and conclusion.finding in flat
        for comparison in conclusion.comparisons:
            assert all(row.study in flat for row in comparison.rows)
            steps = comparison.certainty.steps if comparison.certainty else ()
            assert all(" ".join(step.reason.split()) in flat for step in steps)


def test_every_claim_of_the_demo_can_be_explained() -> None:
    assert_told(DEMO, None, conclude(load(DEMO, "catalog")))


def test_shipped_claims_of_every_kind_can_be_explained(concluded: Conclusions) -> None:
    """Each explanation builds an engine, so of each kind of answer the first few: all would take minutes."""
    kinds: dict[object, list[str]] = {}
    for id, conclusion in by_id(concluded).items():
        one = conclusion.comparisons[0]
        kind = (
            conclusion.finding,
            one.path,
            one.borrowed,
            one.sized,
            one.measured,
            conclusion.outcome,
        )
        kinds.setdefault(kind, []).append(id)
    assert len(kinds) > 10
    assert_told(SHIPPED, [id for ids in kinds.values() for id in ids[:1]], concluded)


def test_an_unknown_claim() -> None:
    catalog = load(DEMO, "demo")
    with pytest.raises(KeyError):
        explain(catalog, conclude(catalog), "crate-curl/99")


def test_several_studies_show_how_they_differ_and_meet(tmp_path: Path) -> None:
    """Three studies of one contrast, two degrees of freedom; Q is that of the log ratios by hand."""
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    write_study(root, PRINTED["SDs, same people"])
    study = (root / "studies" / "glow2031.yaml").read_text()
    records = (root / "references.bib").read_text()
    [record] = [r for r in re.split(r"(?m)^(?=@)", records) if "{glow2031," in r]
    for number, mean in ((2, 40), (3, 75)):
        (root / "studies" / f"glow203{number}.yaml").write_text(
            study.replace("mean: 50", f"mean: {mean}")
        )
        records += "\n" + record.replace("glow2031", f"glow203{number}")
    (root / "references.bib").write_text(records)
    told = chain(root, "cable-curl/1")
    assert "3 samples with a spread of their own connect 2 exercises." in told
    # Twelve people do both: r = 0.5, the small-sample correction beside, and each variance by (t / z)^2.
    y, v = [], []
    for b in (50, 40, 75):
        c = (12 / 61) ** 2 / 12, (11 / b) ** 2 / 12
        y.append(log(61 / b) + (c[0] - c[1]) / 2)
        v.append(
            (sum(c) - sqrt(c[0] * c[1])) * (stats.t.ppf(0.975, 11) / stats.norm.ppf(0.975)) ** 2
        )
    w = 1 / np.array(v)
    q = float(w @ (y - w @ y / w.sum()) ** 2)
    assert f"Q = {q:.4g} with 2 degrees of freedom" in told
