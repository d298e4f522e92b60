"""How wards write and speak: the lists behind the spelling and the questions of the finder.

Common practice, no source. What follows from the catalogue (symbols, formulas, names) is not
listed here but made from it.
"""

# Charges are never asked for: "Ca²⁺" is "Ca".
RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻"

CHARACTERS = {
    "ß": "ss",
    "æ": "ae",
    "ø": "o",
    "œ": "oe",
    "ł": "l",
    "μ": "u",
    "⁄": "/",
    "−": "-",
    "–": "-",
    "—": "-",
    "‑": "-",
    "‐": "-",
    "≤": "<=",
    "≥": ">=",
    "&": " and ",
    "'": "",
    "’": "",
    "‘": "",
    "`": "",
}

FRACTIONS = {"1/2": "half", "1/3": "third", "1/4": "quarter", "1/5": "fifth"}

# Spellings of one country become those of another; what comes out need not be a word.
SPELLINGS = (("sulph", "sulf"), ("ae", "e"), ("oe", "e"), ("colour", "color"))

_ONES = "zero one two three four five six seven eight nine"
_TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
ONES = {word: number for number, word in enumerate(_ONES.split())}
TEENS = {word: number for number, word in enumerate(_TEENS.split(), start=10)}
TENS = {word: 10 * number for number, word in enumerate(_TENS.split(), start=2)}
POINT = "point"

# How a unit is typed -> the unit of the token.
UNITS = {
    "%": "%",
    "percent": "%",
    "g": "g",
    "gm": "g",
    "gram": "g",
    "grams": "g",
    "mg": "mg",
    "mmol": "mmol",
    "mmols": "mmol",
    "millimole": "mmol",
    "millimoles": "mmol",
    "meq": "meq",
    "meqs": "meq",
    "mosm": "mosm",
    "mosmol": "mosm",
    "kcal": "kcal",
    "ml": "ml",
    "mls": "ml",
    "cc": "ml",
    "l": "l",
    "litre": "l",
    "litres": "l",
    "liter": "l",
    "liters": "l",
}
LITRE_WORDS = ("litre", "litres", "liter", "liters")

# Words with no bearing on which fluid is meant; they need not be found.
_IDLE = """
a an and any are as at by can contain do does fluid for from give given have how i in infusion
injection injections intravenous into iv is it made me much my need of on or per please plus show so
solution some that the there this to use v w want we what which with
"""
IDLE = tuple(_IDLE.split())

# Words of one meaning. Symbols and formulas come from the catalogue's particles and substances.
SAME = {
    "amp": "ampoule",
    "ampul": "ampoule",
    "ampule": "ampoule",
    "cacl": "calcium chloride",
    "gelatine": "gelatin",
    "kpo4": "potassium phosphate",
    "mosm": "osmolarity",
    "osm": "osmolarity",
    "osmolality": "osmolarity",
}

# How a reader asks what a bag holds or lacks.
WITHOUT = ("without", "no", "not", "non", "lacking", "minus", "zero")
WITH = ("with", "containing", "contain", "holding", "having", "plus")
FREE = ("free", "less")
HOLDING = ("containing", "holding")
AND = ("and", "or", "nor")
SIGNS = {
    "<": "<",
    "<=": "<=",
    ">": ">",
    ">=": ">=",
    "under": "<",
    "below": "<",
    "less": "<",
    "fewer": "<",
    "over": ">",
    "above": ">",
    "more": ">",
    "greater": ">",
    "least": ">=",
    "most": "<=",
}
# Words between a sign and its number, or between an amount and what it is of.
LINKS = ("at", "is", "of", "than", "the", "any", "added", "a")
# Before a bare number they say that it is a volume; after it likewise.
BEFORE_VOLUME = ("in", "per")
AFTER_VOLUME = ("bag", "bottle", "vial", "with", "of")

# Further words for what a bag holds, by quantity or by the name of what is weighed.
ALSO_MEASURED = {
    "bicarbonate": ("bic", "bicarb"),
    "calcium": ("cal",),
    "glucose": ("dextrose", "sugar"),
    "magnesium": ("mag",),
    "phosphate": ("phos",),
    "potassium": ("pot", "potass"),
}
COLLOID_WORDS = {
    "protein": "albumin",
    "gelatin": "gelatin",
    "starch": "starch",
    "dextran": "dextran",
}
