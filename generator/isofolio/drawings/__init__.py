"""Drawings: one figure, one function, each a string of SVG without a style attribute."""
