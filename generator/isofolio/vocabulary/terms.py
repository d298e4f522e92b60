"""The closed lists of words that entries, pages and rules share."""

ROLES = ("ready", "concentrate", "colloid", "blood-product", "diluent")
STATUSES = ("current", "retired", "not-for-use")
JURISDICTIONS = ("UK", "IE", "EU", "US", "AU", "NZ", "IN", "CA", "WHO")
NAME_KINDS = ("synonym", "abbreviation", "ward word", "misspelling", "national name")
GRADES = ("read", "copy", "memory", "arithmetic")
REVIEW_STATES = ("draft", "checked", "double-checked")
CONTAINER_KINDS = ("bag", "bottle", "glass bottle", "ampoule", "vial", "syringe")
HYDRATES = (
    "anhydrous",
    "monohydrate",
    "dihydrate",
    "trihydrate",
    "hexahydrate",
    "heptahydrate",
)
COLLOIDS = ("protein", "gelatin", "starch", "dextran")
FATES = ("stays", "burnt", "becomes-bicarbonate", "may-become-bicarbonate", "polyanion")
# Families of ions that share a fill and a pattern in drawings.
COLOURS = (
    "sodium",
    "potassium",
    "calcium",
    "magnesium",
    "chloride",
    "bicarbonate",
    "rest",
)
PATTERNS = ("plain", "hatch", "dots", "cross-hatch", "lines")
SOURCE_KINDS = (
    "journal",
    "guideline",
    "regulator",
    "standard",
    "pharmacopoeia",
    "product text",
    "textbook",
    "database",
    "national body",
    "reference data",
)
STRICTER = ("lower", "higher")

COMMON_PRACTICE = "common practice"

CATALOGUE_FOLDERS = (
    "fluids",
    "substances",
    "situations",
    "sources",
    "cautions",
    "comparisons",
    "mixing",
    "equipment",
    "stock",
    "glossary",
    "confusions",
    "expected",
)

# Fluids that stand side by side in a comparison; plasma may stand beside them.
FEWEST_COMPARED, MOST_COMPARED = 2, 6

# ANSI Z535 signal words, most severe first; "notice" is for what cannot injure.
SIGNAL_WORDS = ("danger", "warning", "caution", "notice")

# The answers of a fluid page's first screen that may already say what a caution says.
ANSWERS = ("vein", "blood", "body")

# Shapes of a caution's condition: the keys that each takes besides `when`.
CONDITIONS: dict[str, tuple[str, ...]] = {
    "above": ("quantity", "limit"),
    "at-least": ("quantity", "limit"),
    "below": ("quantity", "limit"),
    "at-most": ("quantity", "limit"),
    "holds": ("particles",),
    "holds-all": ("particles",),
    "free-of": ("particles",),
    "weighed": ("substances",),
    "colloid": ("kinds",),
    "role": ("roles",),
    "status": ("statuses",),
    "situation": ("situations",),
    "container": ("kinds",),
    "fluid": ("ids",),
}

# What may speak against taking one fluid instead of another: one small function each.
NOT_INSTEAD_CASES = (
    "calcium-added",
    "blood-line",
    "raised-pressure",
    "brain-injury",
    "high-potassium",
    "diluting-drugs",
)

# Veins that a product text asks for.
ROUTES = ("large", "central")

# What the vein may have to bear, in order of severity.
VEIN_WORDS = (
    "Small vein: nothing in these figures against it",
    "Not known: read the label",
    "Large vein; watch the site",
    "Central line preferred",
    "Not as it is: dilute first",
    "Not for use",
)

# Limits that a rule of the program reads by their id, and the quantity that it holds against each:
# without one of them a judgement, and with it a warning, would be missing.
LIMITS_READ = {
    "class-osmolarity-high": "osmolarity",
    "class-osmolarity-low": "osmolarity",
    "potassium-caution": "potassium",
    "potassium-small-vein": "potassium",
    "strong-potassium": "potassium",
    "strong-solution": "osmolarity",
    "tonicity-hypertonic": "tonicity_ratio",
    "tonicity-hypotonic": "tonicity_ratio",
    "tonicity-slightly-hypertonic": "tonicity_ratio",
    "tonicity-slightly-hypotonic": "tonicity_ratio",
    "vein-central-preferred": "osmolarity",
    "vein-glucose": "glucose_mass",
    "vein-ph-high": "ph",
    "vein-watch-site": "osmolarity",
    "water-half": "free_water",
    "water-nearly": "free_water",
}

# Limits that divide the scale of a quantity into words, from the lowest to the highest: a rule that
# finds two of them crossed would have no fluid between them.
LIMITS_ASCENDING = {
    "osmolarity": ("class-osmolarity-low", "class-osmolarity-high"),
    "tonicity_ratio": (
        "tonicity-hypotonic",
        "tonicity-slightly-hypotonic",
        "tonicity-slightly-hypertonic",
        "tonicity-hypertonic",
    ),
    "free_water": ("water-half", "water-nearly"),
}

# What the label audit says of a printed figure, best first, then what it cannot judge.
AUDIT_VERDICTS = (
    "exact",
    "rounded",
    "nominal",
    "convention",
    "explained",
    "error",
    "not-computed",
)

# Mixing: what meets what, in which way, and what was found. A pass in one mode says nothing of
# another.
MIXING_KINDS = (
    "drug with fluid",
    "fluid with blood",
    "fluid with fluid",
    "additive with fluid",
    "drug with drug",
    "sorption to plastic",
)
MIXING_MODES = ("same bag", "same line", "same vein after a flush", "sorption", "diluent")
MIXING_FINDINGS = ("does not mix", "mixes", "loses activity", "is taken up by plastic", "depends")

# The worksheets, by the anchor of each: what a situation or a piece of equipment may lead to.
WORKSHEET_IDS = ("contents", "day", "concentrate", "drops", "glucose", "sodium")

EQUIPMENT_KINDS = (
    "set",
    "connector",
    "filter",
    "cannula",
    "central access",
    "container",
    "label",
)

# What a change of the catalogue may do to an entry, most severe first: the order of a report.
# "recipe": what is weighed in; "imperative": the line of a caution; "note lost": a sentence about
# giving; "limit": a limit that is loosened; "figure": a computed quantity.
CHANGE_KINDS = (
    "recipe",
    "danger lost",
    "caution lost",
    "signal word",
    "imperative",
    "note lost",
    "limit",
    "substance",
    "figure",
    "role",
    "status",
    "danger gained",
    "vein",
    "blood",
    "body",
    "mixing",
    "class",
    "audit",
    "address",
    "caution gained",
    "plasma",
    "alternatives",
    "declared",
    "stamp",
)
