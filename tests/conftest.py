"""Settings for every test: no example is held to a time, since machines differ and may be busy."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
