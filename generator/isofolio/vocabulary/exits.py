"""Exit codes of every command; 0 is good."""

CATALOGUE_FAULT = 1
"""The catalogue, or a copy of the handbook, has problems."""

ENVIRONMENT_FAULT = 2
"""Wrong use, or a fault of the machine."""

NOT_DOUBLE_CHECKED = 3
"""A change that matters to safety and that nobody has double-checked."""
