"""Properties are drawn the same way each time and may take as long as the machine needs."""

from hypothesis import settings

settings.register_profile("laboratory", deadline=None, derandomize=True, database=None)
settings.load_profile("laboratory")
