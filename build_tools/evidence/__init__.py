"""What the numbers say: from printed numbers to answers, their certainty and the sentences composed from them.

Nothing here knows of pages, YAML or MkDocs. ``claims.conclude.conclude`` is the one
entry point for whatever renders. ``LAYERS`` is the order of the rooms, as for the whole package.
"""

import os

#: Room or module -> what it holds, from the ground up: each may import from itself and from those before it.
LAYERS: dict[str, str] = {
    "errors": "the one error of numbers",
    "threshold": "numbers against thresholds",
    "treatments": "exercises and versions of them",
    "terms": "what is asked, what was found, what a sentence may tell",
    "settings": "the handbook's conventions",
    "effects": "log ratios and their spread from what papers print",
    "model": "how samples become one answer, however few",
    "wording": "sentences",
    "certainty": "GRADE's domains, one a module",
    "studies": "what one sample of people says",
    "claims": "questions, answers, conclusions",
    "explain": "the chain of one claim in text",
}

# The matrices are small: several threads on one of them cost more than they save, on a busy machine tenfold.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
