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

CATALOGUE_FOLDERS = ("fluids", "substances", "situations", "sources")
