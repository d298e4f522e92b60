"""The index behind the finder."""
