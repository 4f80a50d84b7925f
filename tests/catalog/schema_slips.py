"""Values that a schema for editors must refuse, and unusual ones that it must let pass: kind, file of the demo, path to the value, and what
replaces it (`...` removes the key)."""

CRATE = ("exercises", "exercises/crate-curl.yaml")
CABLE = ("exercises", "exercises/cable-curl.yaml")
WICK = ("studies", "studies/wick2030.yaml")
GLOW = ("studies", "studies/glow2031.yaml")
VOCABULARY = ("vocabulary", "vocabulary.yaml")
HANDBOOK = ("handbook", "handbook.yaml")
LANTERN = ("muscles", "muscles/lantern.yaml")

#: What the loader refuses.
BROKEN = {
    "shown from the front, told from the side": (*CRATE, ["movement", "shown"], "front"),
    "unknown key": (*CRATE, ["tempo"], "slow"),
    "unknown key deep inside": (*CRATE, ["emphasis", 0, "cites", 0, "page"], "3"),
    "missing key": (*CRATE, ["cues"], ...),
    "text for a list": (*CRATE, ["equipment"], "crate"),
    "text for a number": (*CRATE, ["movement", "from", "hip"], "90"),
    "true for a number": (*CRATE, ["movement", "from", "hip"], True),
    "number for text": (*CRATE, ["name"], 5),
    "number for true": (*WICK, ["same_people"], 1),
    "empty list": (*CRATE, ["faults"], []),
    "value outside a closed list": (*CRATE, ["emphasis", 0, "outcome"], "architecture"),
    "field name instead of its key": (*CRATE, ["movement", "start"], {"hip": 90}),
    "not a date": (*CRATE, ["reviewed"], "01.11.2026"),
    "no such day": (*CRATE, ["reviewed"], "2026-02-30"),
    "markup in text": (*CRATE, ["emphasis", 0, "because"], "<script>"),
    "markup in a name": (*CRATE, ["name"], "*Crate* curl"),
    "path as an id": (*CRATE, ["swaps", 0], "../handbook"),
    "id too long": (*CRATE, ["swaps", 0], "a" * 65),
    "bad id as a key": (*LANTERN, ["parts", "Long Head"], None),
    "two comparators": (*CRATE, ["emphasis", 0, "more_than", "part"], "lantern/short-head"),
    "no comparator": (*CRATE, ["emphasis", 0, "more_than", "exercise"], None),
    "two directions": (*CRATE, ["emphasis", 0, "less_than"], {"exercise": "cable-curl"}),
    "no direction": (*CRATE, ["emphasis", 0, "more_than"], ...),
    "two kinds of number": (*GLOW, ["results", 0, "values", "seated", "change"], 3),
    "no number": (*GLOW, ["results", 0, "values", "seated", "mean"], ...),
    "before without after": (*GLOW, ["results", 0, "values", "seated"], {"pre": {"mean": 4}}),
    "after without before": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {"post": {"mean": 4}, "change": 1},
    ),
    "a level beside a change": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}, "mean": 5},
    ),
    "a spread of no change": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}, "post": {"mean": 5}, "sd": 1},
    ),
    "a correlation of nothing": (*GLOW, ["results", 0, "values", "seated", "correlation"], 0.9),
    "a version of nothing": (*GLOW, ["arms", "seated"], {"called": "it", "version": "lower-half"}),
    "a site from no end": (*GLOW, ["results", 0, "site"], {"percent": 30}),
    "a site nowhere": (*GLOW, ["results", 0, "site"], {}),
    "a silent paper that says something": (
        *GLOW,
        ["results", 0, "contrasts", 0, "test"],
        "not reported",
    ),
    "a contrast without its test": (*GLOW, ["results", 0, "contrasts", 0, "test"], ...),
    "a number from two places": (
        *GLOW,
        ["results", 0, "via"],
        {"key": "wick2030", "file": "its data"},
    ),
    "a number from nowhere": (*GLOW, ["results", 0, "at"], ...),
    "a number without a unit": (*GLOW, ["results", 0, "unit"], ...),
    "a correlation above one": (
        *HANDBOOK,
        ["conventions", "correlations", "arms", 0, "value"],
        1.1,
    ),
    "no correlation for an outcome": (
        *HANDBOOK,
        ["conventions", "correlations", "arms", 0, "outcome"],
        "strength",
    ),
    "two spreads": (*GLOW, ["results", 0, "values", "seated", "se"], 3),
    "p of zero": (*GLOW, ["results", 0, "contrasts", 0, "p"], 0),
    "second leg in two ways": (*CABLE, ["movement", "other", "toes"], [-0.8, 0]),
    "second leg with a start only": (*CABLE, ["movement", "other", "to"], ...),
    "second leg nowhere": (*CABLE, ["movement", "other"], {"pitch": -60}),
    "three coordinates": (*CABLE, ["movement", "other"], {"toes": [-0.8, 0, 0]}),
    "unknown part that rests": (*CABLE, ["movement", "support"], {"nose": 1}),
    "one rest and no fixed segment": (*VOCABULARY, ["positions", "seated", "fixes"], ...),
    "two rests and a fixed segment": (
        *VOCABULARY,
        ["positions", "seated", "rests_on"],
        {"seat": 0.4, "feet": 0},
    ),
    "two rests and no face": (
        *VOCABULARY,
        ["positions", "seated"],
        {"name": "X", "rests_on": {"hips": 0, "feet": 0}},
    ),
    "two rests, a face and the side": (
        *VOCABULARY,
        ["positions", "seated"],
        {"name": "X", "rests_on": {"hips": 0, "feet": 0}, "faces": "up", "sideways": True},
    ),
    "one rest and a face": (*VOCABULARY, ["positions", "seated", "faces"], "up"),
    "two rests, neither face nor side": (
        *VOCABULARY,
        ["positions", "seated"],
        {"name": "X", "rests_on": {"hips": 0, "feet": 0}, "sideways": False},
    ),
    "nothing rests": (*VOCABULARY, ["positions", "seated", "rests_on"], {}),
    "pulley at no known height": (*CABLE, ["movement", "load", "from"], {"x": 1, "height": "top"}),
    "an answer without a reason": (*WICK, ["appraisal", "fair-lamp", "because"], ...),
    "an answer from nowhere": (*WICK, ["appraisal", "told-all", "at"], ...),
    "an answer that is none": (*WICK, ["appraisal", "told-all", "answer"], "perhaps"),
    "a range beyond the end": (*VOCABULARY, ["versions", "lower-half", "range"], [0, 1.5]),
    "a range with a turn": (*CRATE, ["version_ranges"], {"lower-half": [0, 0.5, 1]}),
    "a size of no dimension": (*VOCABULARY, ["measures", "mri-volume", "dimension"], ...),
    "a dimension of a signal": (*VOCABULARY, ["measures", "surface-emg", "dimension"], "area"),
    "a dimension that is none": (*VOCABULARY, ["measures", "mri-volume", "dimension"], "length"),
    "a spread of nothing": (*HANDBOOK, ["conventions", "spread_growth", "value"], 0),
    "nobody took part": (*GLOW, ["people", "n"], 0),
    "unsafe address": (*HANDBOOK, ["owner", "url"], "javascript:alert(1)"),
}
#: Unusual, but what the loader accepts the schema must not underline.
UNUSUAL = {
    "empty optional key": (*CRATE, ["sides"], "one"),
    "null for an optional key": (*CRATE, ["emphasis", 0, "disputed"], None),
    "null beside a comparator": (*CRATE, ["emphasis", 0, "more_than", "part"], None),
    "whole number for an angle": (*CRATE, ["movement", "to", "knee"], 100),
    "null for no dimension": (*VOCABULARY, ["measures", "surface-emg", "dimension"], None),
    "before and after": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4, "sd": 1}, "post": {"mean": 5, "sd": 1}},
    ),
    "before, after and change": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {
            "pre": {"mean": 4, "sd": 1},
            "post": {"mean": 5, "sd": 1},
            "change": 1,
            "sd": 0.4,
            "correlation": 0.9,
        },
    ),
    "a change with its start": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}, "change": 1, "se": 0.1},
    ),
    "a second-hand number": (
        *GLOW,
        ["results", 0],
        {
            "parts": ["lantern"],
            "measure": "surface-emg",
            "via": {"key": "wick2030", "file": "its data", "rows": "3"},
            "unit": "mV",
            "values": {"seated": {"mean": 3}},
            "site": {"percent": 30, "from": "distal"},
        },
    ),
    "a direction has no unit": (
        *GLOW,
        ["results", 0],
        {
            "parts": ["lantern"],
            "measure": "surface-emg",
            "at": "abstract",
            "contrasts": [{"of": "seated", "against": "standing", "test": "not reported"}],
        },
    ),
    "spread as an interval": (
        *GLOW,
        ["results", 0, "values", "seated"],
        {"mean": 4, "ci95": [3, 5]},
    ),
    "second leg whose toes stay": (
        *CABLE,
        ["movement", "other"],
        {"toes": [-0.8, 0.4], "pitch": -60},
    ),
    "pulley by name": (*CABLE, ["movement", "load", "from"], {"x": 1.5, "height": "low"}),
    "pulley by metres": (*CABLE, ["movement", "load", "from"], {"x": 1.5, "height": 0.6}),
    "body on two points": (
        *VOCABULARY,
        ["positions", "seated"],
        {"name": "X", "rests_on": {"shoulders": 0, "feet": 0}, "faces": "up"},
    ),
    "body on its side on two points": (
        *VOCABULARY,
        ["positions", "seated"],
        {"name": "X", "rests_on": {"elbows": 0, "feet": 0}, "sideways": True},
    ),
    "body on its side on one point": (*VOCABULARY, ["positions", "seated", "sideways"], True),
    "values without contrasts": (*GLOW, ["results", 0, "contrasts"], ...),
}
