"""Judgements from figures and limits, each with its source."""
