"""What every pair asks of the samples on a topic."""

from __future__ import annotations

from catalogs import A, B, C, assembly, result, samples_in, study

from build_tools.evidence.studies.topic import Samples

ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}
STUDIES = {
    "two": study([result(ARMS | {"c": {"mean": 60.0, "sd": 9.0}})], {"a": A, "b": B, "c": C}),
    "one": study([result(ARMS)]),
    "mute": study([result(contrasts=[{"of": "a", "against": "b", "favours": "of"}])]),
}


def test_samples_by_key_and_by_the_pair_they_are_pooled_on():
    found = Samples(samples_in(assembly(STUDIES)))
    assert list(found.by_key) == ["mute", "one", "two"]
    assert found.of_pair[frozenset((A, B))] == {"one", "two"}
    assert found.of_pair[frozenset((B, C))] == {"two"} and frozenset((A, A)) not in found.of_pair


def test_whether_an_assumed_correlation_entered():
    assert Samples(samples_in(assembly(STUDIES))).rest_on_correlations
    tested = study(
        [result(contrasts=[{"of": "a", "against": "b", "ratio": {"value": 1.2}, "t": 2.0}])]
    )
    assert not Samples(samples_in(assembly({"one": tested}))).rest_on_correlations
    groups = study([result(ARMS)], same=False, n=24, sizes={"a": 12, "b": 12})
    assert not Samples(samples_in(assembly({"one": groups}))).rest_on_correlations
    sites = [result(ARMS, site={"said": site}) for site in ("one", "two")]
    grouped = study(sites, same=False, n=24, sizes={"a": 12, "b": 12})
    assert Samples(samples_in(assembly({"one": grouped}))).rest_on_correlations
