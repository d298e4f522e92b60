"""Isofolio: a reviewed catalogue of intravenous fluids becomes an offline handbook."""

__version__ = "0.1.0"
