"""What the pages Lagging part and Week pass on after the ``#`` of an address: the reference that ``js/state.js`` is tested against."""

from __future__ import annotations

import json
from base64 import urlsafe_b64encode

from ...planning.plan_file import Plan, write
from ...planning.shortlist import Wish


def fragment(plan: Plan, wish: Wish, equipment: list[str], concerns: list[str]) -> str:
    """``parts=...&equipment=...&avoid=...&week=...`` without ``#``; equipment and concerns in the order of the vocabulary's lists.

    ``equipment=none`` is the body alone. An address without equipment means all of it.
    """
    kit = [id for id in equipment if id in wish.equipment] or ["none"]
    said = {"parts": wish.parts, "equipment": kit,
            "avoid": [id for id in concerns if id in wish.concerns]}
    return "&".join([*(f"{name}={','.join(ids)}" for name, ids in said.items() if ids), f"week={_packed(plan)}"])


def _packed(plan: Plan) -> str:
    compact = json.dumps(json.loads(write(plan)), ensure_ascii=False, separators=(",", ":"))
    return urlsafe_b64encode(compact.encode()).rstrip(b"=").decode()
