"""The handbook as data for other programs."""
