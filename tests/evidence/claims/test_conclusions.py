"""Conclusions as plain data: how a claim's runs of parts become one text."""

from build_tools.evidence.claims.conclusions import Conclusion, Conclusions
from build_tools.evidence.wording.sentences import ComposedAnswer


def conclusion(*told: ComposedAnswer) -> Conclusion:
    return Conclusion("a/1", "a", 0, "growth", ("m/p",), "cited", "found", "Because.", None, told)


def test_all_of_it_as_one_text():
    told = (
        ComposedAnswer("One.", ("Beside it.",)),
        ComposedAnswer("Two.", ()),
        ComposedAnswer("", ("For all.",)),
    )
    assert conclusion(*told).sentence == "One. Beside it. Two. For all."
    assert conclusion().sentence == ""


def test_an_exercise_without_claims_has_no_conclusions():
    found = Conclusions(names=None, claims={"a": [conclusion()]})  # type: ignore[arg-type]
    assert found.of("a") == [conclusion()] and found.of("nobody") == []
