"""Property tests: the same examples at every run, no deadline, nothing left behind."""

from hypothesis import settings

settings.register_profile(
    "isofolio", deadline=None, database=None, derandomize=True, max_examples=60
)
settings.load_profile("isofolio")
