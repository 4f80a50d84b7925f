"""Queries of the page Find, made at random."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

Query = dict[str, Any]
EMPTY: Query = {
    "part": "",
    "kind": "",
    "has": [],
    "position": "",
    "sides": "",
    "avoid": [],
    "name": "",
}


def queries(data: dict[str, Any]) -> st.SearchStrategy[Query]:
    """Queries of which many find something: little equipment finds little, so most ask for none."""
    names = sorted(
        {
            word
            for one in data["exercises"].values()
            for name in (one["name"], *one["also"])
            for word in name.split()
        }
    )
    some = st.one_of(st.just(""), st.sampled_from(sorted([*data["parts"], *data["muscles"]])))
    kit = st.lists(
        st.sampled_from(["none", *data["equipment"]]), max_size=len(data["equipment"]), unique=True
    ).map(sorted)
    return st.fixed_dictionaries(
        {
            "part": some,
            "kind": st.sampled_from(["", "", "growth", "activation", "length", "taught"]),
            "has": st.one_of(st.just([]), kit),
            "position": st.sampled_from(["", "", "", *data["positions"]]),
            "sides": st.sampled_from(["", "", "both", "one"]),
            "avoid": st.lists(
                st.sampled_from(sorted(data["concerns"])), max_size=3, unique=True
            ).map(sorted),
            "name": st.one_of(
                st.just(""),
                st.sampled_from(names),
                st.sampled_from(names).map(lambda word: f"{word[:3].upper()}é"),
            ),
        }
    )


def drawn(strategy: st.SearchStrategy[Query], number: int) -> list[Query]:
    """That many examples of a strategy."""
    found: list[Query] = []

    @settings(
        max_examples=number,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(strategy)
    def collect(query: Query) -> None:
        found.append(query)

    collect()
    return found
