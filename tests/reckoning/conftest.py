"""Property tests judge answers, not the speed of a busy machine."""

from hypothesis import settings

settings.register_profile("no-deadline", deadline=None)
settings.load_profile("no-deadline")
