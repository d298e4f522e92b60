"""From YAML text to checked records, with the place of every fault."""
