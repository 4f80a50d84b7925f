"""Short lists: each rule by a case made for it, and what must hold for any wish. The rules are the handbook's own."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from worlds import PARTS, THINGS, WORRIES, ahead, evidence, exercise, length, wishes, worlds

from build_tools.planning.facts import ExerciseFacts
from build_tools.planning.order import Orders, Place
from build_tools.planning.preferences import Statement
from build_tools.planning.relax import relaxed
from build_tools.planning.shortlist import MOST, Difference, Shortlist, Shortlists, Wish, fits

WICK, SHADE, BASE = "lamp/wick", "lamp/shade", "lamp/base"


def answer(wish: Wish, statements: list[Statement], *exercises: ExerciseFacts) -> Shortlist:
    made = {one.id: one for one in exercises}
    orders = Orders(made, statements, 0.1)
    return Shortlists(made, {part: orders.of(part) for part in PARTS}).of(wish)


def proposed(found: Shortlist) -> list[str]:
    return [proposal.exercise for proposal in found.proposals]


def test_main_lifts_and_what_the_week_holds_are_not_proposed() -> None:
    made = [exercise("main", main=True), exercise("held"), exercise("free", load="band")]
    found = answer(Wish((WICK,), frozenset(), week=frozenset({"held"})), [ahead("main", "free"), ahead("held", "free")], *made)
    assert found.options == {WICK: (Place("none", ("free",)),)}
    assert proposed(found) == ["free"] and found.proposals[0].differences == (Difference("held", ("load",)),)


def test_equipment_and_concerns_are_kept() -> None:
    made = [exercise("a", equipment=frozenset({"crate"})), exercise("b", concerns=frozenset({"knee"})), exercise("c")]
    assert proposed(answer(Wish((WICK,), frozenset(), frozenset({"knee"})), [], *made)) == ["c"]


def test_the_second_is_the_next_that_differs_and_length_counts_first() -> None:
    first = exercise("a", lengths={WICK: length(0.9)}, joints={WICK: "hip"})
    same, load = exercise("b", lengths={WICK: length(0.8)}), exercise("c", load="machine")
    short = exercise("d", lengths={WICK: length(0.1)})
    assert proposed(answer(Wish((WICK,), frozenset()), [ahead("a", "x")], first, same, load, short, exercise("x"))) == ["a", "d"]
    # b stands above c and d, but nothing tells it from a.
    told = [ahead("a", "b"), ahead("b", "x", "activation")]
    assert proposed(answer(Wish((WICK,), frozenset()), told, first, same, load, exercise("x"))) == ["a", "c"]


def test_nothing_is_proposed_twice_for_the_sake_of_two() -> None:
    assert proposed(answer(Wish((WICK,), frozenset()), [ahead("a", "b")], exercise("a"), exercise("b"))) == ["a"]


def test_several_parts_share_the_two_places() -> None:
    both = exercise("both", credits={WICK: 1.0, SHADE: 1.0})
    made = [exercise("wick"), both, exercise("shade", credits={SHADE: 1.0}), exercise("base", credits={BASE: 1.0})]
    assert proposed(answer(Wish((WICK, SHADE, BASE), frozenset()), [], *made)) == ["both", "base"]
    assert proposed(answer(Wish((WICK, SHADE), frozenset()), [ahead("wick", "both")], *made)) == ["wick", "both"]


def test_of_a_tie_what_costs_least_goes_first() -> None:
    dear = exercise("a", credits={WICK: 1.0, BASE: 1.0}, load="band")
    found = answer(Wish((WICK,), frozenset(), sets=4), [], dear, exercise("b", credits={WICK: 1.0, BASE: 0.5}))
    assert [(p.exercise, p.costs, p.tied) for p in found.proposals] == [("b", {BASE: 2.0}, True), ("a", {BASE: 4.0}, True)]


def test_what_to_relax() -> None:
    made = {one.id: one for one in (
        exercise("a", equipment=frozenset({"crate"})), exercise("b", equipment=frozenset({"crate"}), concerns=frozenset({"knee"})),
        exercise("c", equipment=frozenset({"post"})), exercise("d", concerns=frozenset({"knee"})), exercise("e"), exercise("f", main=True))}
    orders = {WICK: Orders(made, [], 0.1).of(WICK)}
    found = relaxed(Wish((WICK,), frozenset(), frozenset({"knee"}), frozenset({"e"})), WICK, made, orders)
    assert (found.equipment, found.concerns, found.week, found.main) == ((("crate", 1), ("post", 1)), (("knee", 1),), 1, 1)


@given(worlds(), evidence(), wishes(), st.sampled_from(THINGS), st.sampled_from(WORRIES))
def test_what_always_holds(made: dict[str, ExerciseFacts], told: list[Statement], wish: Wish, thing: str, worry: str) -> None:
    orders = {part: Orders(made, told, 0.1).of(part) for part in PARTS}
    lists = Shortlists(made, orders)

    def options(asked: Wish) -> dict[str, set[str]]:
        return {part: {id for place in places for id in place.exercises} for part, places in lists.of(asked).options.items()}

    found, all_fit = lists.of(wish), options(wish)
    fewer, warier = options(replace(wish, equipment=wish.equipment - {thing})), options(replace(wish, concerns=wish.concerns | {worry}))
    assert all(fewer[part] <= all_fit[part] and warier[part] <= all_fit[part] for part in wish.parts)
    ids = [proposal.exercise for proposal in found.proposals]
    assert len(ids) == len(set(ids)) <= MOST and all(fits(wish, made[id]) for id in ids)
    assert bool(ids) == any(all_fit.values())
    for proposal in found.proposals:
        assert proposal.exercise in all_fit[proposal.part] and not proposal.costs.keys() & set(wish.parts)
    for part in wish.parts:
        gains = dict(relaxed(wish, part, made, orders).equipment)
        added = len(options(replace(wish, equipment=wish.equipment | {thing}))[part] - all_fit[part])
        assert gains.get(thing, 0) == added
