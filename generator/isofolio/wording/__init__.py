"""From a value to the text a person reads: the only rounding in the project."""
