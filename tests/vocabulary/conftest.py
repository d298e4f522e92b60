"""Property tests: no deadline (the machine is shared) and nothing left behind."""

from hypothesis import settings

settings.register_profile("isofolio", deadline=None, database=None, max_examples=60)
settings.load_profile("isofolio")
