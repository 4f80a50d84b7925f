"""Risk of bias of one study, computed from the answers to its signalling questions."""

from __future__ import annotations

from collections.abc import Mapping

from ...catalog.entries import AppraisalQuestion, Found
from ...catalog.load import Catalog
from .body import Read, Risk

#: How many questions of a study at low risk may be answered partly. Convention.
PARTLY = 1
#: What has to be read for a low risk: what stands only in the full text cannot have been looked for elsewhere. Convention.
LOW_FROM: Read = "full text"
#: The rule in a reader's words.
RULE = (
    "High when a question that decides by itself is answered no; low when every question is answered yes, or one of them partly, "
    "from the full text; some concerns otherwise. Silence never counts as yes."
)


def judge_risk(
    asked: Mapping[str, AppraisalQuestion], answers: Mapping[str, Found], read: Read
) -> Risk | None:
    """The risk of bias of a study that is asked ``asked`` and was ``read``; ``None`` when nobody has appraised it.

    - ``high`` when a question that decides is answered no;
    - ``low`` when every question is answered yes, or at most one of them partly, and the full text was read;
    - ``some`` otherwise. A question without an answer counts as not stated, and not stated never as yes.

    So an answer that turns into not stated never lowers the risk, except that a no has to be known to make it high.
    The form, three judgements by an algorithm from signalling questions, is that of RoB 2 (Sterne et al. 2019,
    doi:10.1136/bmj.l4898; tool site: each domain low, some concerns or high); which answers make which judgement is ours.
    """
    if not answers:
        return None
    found = {id: answers.get(id, "not stated") for id in asked}
    if any(question.decides and found[id] == "no" for id, question in asked.items()):
        return "high"
    partly = sum(answer == "partly" for answer in found.values())
    sound = all(answer in ("yes", "partly") for answer in found.values()) and partly <= PARTLY
    return "low" if sound and read == LOW_FROM else "some"


def risk_of(catalog: Catalog, key: str) -> Risk | None:
    """The risk of bias of the study ``key`` of a sound catalog."""
    assert catalog.vocabulary is not None
    study, reference = catalog.studies[key].data, catalog.references.get(key)
    answers = {id: given.answer for id, given in (study.appraisal or {}).items()}
    read: Read = reference.read if reference else "memory"  # type: ignore[assignment]
    return judge_risk(catalog.vocabulary.data.asked_of(study.design), answers, read)
