"""The data behind the coach's working pages. Python works out every rule and order; a page only filters, sorts and adds.

``planner`` makes ``data/planner.json``. A part is ``muscle/part``; lists stand in the order given here; what is not known is left
out, never null; addresses are relative to the top of the site::

    {"version": 1,
     "regions": {id: name},                        # in the order of the vocabulary
     "muscles": {id: {"name", "everyday", "region", "parts": [part, ...]}},
     "parts": {part: {"name", "everyday", "inside", "muscle"}},       # `inside`: as it stands in a sentence, "the soleus"
     "equipment": {id: {"name", "note"?}},         # without `none`
     "positions": {id: name}, "joints": {id: name},
     "concerns": {id: {"name", "note"?}},
     "exercises": {id: {
        "name", "inside", "also": [name, ...], "address",
        "equipment": [id, ...],                    # everything it needs; empty for the body alone
        "position", "sides": "both" | "one", "main": true | false, "load": kind,
        "joints": {part: joint},                   # the joint about which the load asks most of the part, where a load is known
        "credits": {part: 1 | 0.5},                # what one set counts
        "concerns": [id, ...],
        "lengths": {part: {"word": "long" | "middle" | "short", "percent", "hard": true | false}},
                                                   # `hard`: while the load is near its peak; false: the mean, as no load is known
        "fraction"?: share of body mass (0-1),
        "best": {part: {kind: statement}}}},       # the best that puts it ahead, as an index into "statements", by kind (see below)
     "statements": [{"kind", "outcome", "part", "first", "second", "ahead"?, "sentence", "verdict"?, "certainty"?,
                     "ratio"?: [estimate, low, high], "studies"?, "people"?, "address"}],
                                                   # `part` may be a whole muscle; `ahead` is the id that comes out ahead
     "kinds": {kind: {"name", "means"}},           # growth, activation, length, taught, none: in the order in which they count
     "orders": {part: [{"kind", "exercises": [id, ...]}, ...]},       # exercises of one place are a tie, listed by name
     "words": {...},                               # sentences with {places} to fill, see words.py
     "goals": {goal: {dose: {"low"?, "high"?, "unit", "means", "unsure", "address"}}},
     "seconds": {"change", "warm_up", "repetition": {goal: s}, "rest": {goal: s}},
     "equations": {id: {"name", "form", "coefficients", "repetitions": [low, high], "exercises": [id, ...], "error", "memory"}},
     "prediction": {"means", "address"},
     "progression": [{"do", "because"}],
     "limits": {...}}                              # of a saved plan, see plan_file.py

``orders`` and ``best`` hold the kinds growth, activation and taught of statements; the kind length needs no statement (see
``lengths``), and ``none`` has none. Statements of strength and of modelled lengths serve the comparison of exercises only.

``comparison`` makes what the page of two to four exercises needs of one, as ``data/compare/<id>.json``::

    {"cues": {"set_up": [text, ...], "move": [...], "check": [...]},
     "cautions": [{"who", "instead", "stop_if", "ask"}],
     "figure": address of its drawing,
     "joint": the joint that the load is told by, "ends": [start, end] in words,
     "load"?: [per cent of its peak, ...],         # 21 instants, every 5 % of the repetition; below 0: the other side is asked
     "no_load"?: why there is no curve,
     "lengths": {part: [per cent of its own range, ...]}}             # the same instants
"""
