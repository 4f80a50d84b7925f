"""What each level of certainty means; the words that carry it in a sentence stand in ``wording.table``."""

from __future__ import annotations

from ..terms import Level

#: What each level says of the estimate, after GRADE's own definitions (doi:10.1186/1741-7015-10-33, Table 1).
MEANING: dict[Level, str] = {
    "high": "We are very confident that the true difference is close to this estimate.",
    "moderate": "The true difference is probably close to this estimate, but it may be quite different.",
    "low": "The true difference may be quite different from this estimate.",
    "very low": "The true difference is likely to be quite different from this estimate.",
}
