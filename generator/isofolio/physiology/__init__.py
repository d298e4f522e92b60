"""What a composition becomes in a standard adult: tonicity, acid-base, compartments, sodium."""
