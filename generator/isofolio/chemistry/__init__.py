"""What a fluid contains: formulas, compositions, charge, osmosis and energy, in fixed units."""
