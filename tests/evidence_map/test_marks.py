"""The order of marks: the part before its muscle, growth before activation, what was measured before what is taught.

From outside: the form (exercises by parts, one mark a cell, blank where nobody looked) is the evidence and gap map of published
guidance on evidence synthesis; the marks and their order are the handbook's own convention.
"""

from __future__ import annotations

from build_tools.evidence_map.marks import LEGEND, Cell, Mark, Reason


def reason(kind: str, fill: str | None = None, measured: str = "part", people: int = 10) -> Reason:
    return Reason(
        Mark(kind, fill),  # type: ignore[arg-type]
        "",
        "",
        measured=measured,  # type: ignore[arg-type]
        people=people,
    )


IN_ORDER = [
    reason("growth", "found"),
    reason("growth", "hinted"),
    reason("growth", "wider", "whole"),
    reason("growth", "no more"),
    reason("activation", "found"),
    reason("activation", "hinted"),
    reason("activation", "wider", "together"),
    reason("growth", "no more", "whole"),
    reason("activation", "no more"),
    reason("length"),
    reason("taught"),
]


def test_reasons_stand_in_the_stated_order() -> None:
    assert sorted(reversed(IN_ORDER), key=lambda one: one.rank) == IN_ORDER


def test_among_equals_more_people_go_first() -> None:
    few, many = reason("growth", "found", people=9), reason("growth", "found", people=40)
    assert sorted([few, many], key=lambda one: one.rank) == [many, few]


def test_the_legend_holds_every_mark_once() -> None:
    drawn = {one.mark for one in IN_ORDER}
    assert drawn == set(LEGEND) and len(LEGEND) == len(set(LEGEND))


def test_a_taught_or_modelled_cell_is_untested() -> None:
    for kind, tested in (("taught", False), ("length", False)):
        assert Cell("a", "b/c", "direct", (reason(kind),)).tested is tested
    assert Cell("a", "b/c", None, (reason("activation", "no more"),)).tested
    assert Cell("a", "b/c", "direct").mark is None
