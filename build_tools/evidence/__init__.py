"""What the numbers say: effects, pooling, networks, certainty, verdicts and the sentences composed from them.

Nothing here knows of pages, YAML or MkDocs. ``conclude.conclude`` is the one
entry point for whatever renders.
"""

import os

# The matrices are small: several threads on one of them cost more than they save, on a busy machine tenfold.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
