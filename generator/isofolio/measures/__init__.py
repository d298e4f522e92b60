"""Quantity by quantity: from a record's composition to a value or the reason for none."""
