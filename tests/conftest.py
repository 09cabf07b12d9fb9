"""Settings for every test."""

from hypothesis import settings

# A busy machine is no fault of the code: examples are judged by their result, never by the clock.
settings.register_profile("casebook", deadline=None)
settings.load_profile("casebook")

pytest_plugins = ["tests.line"]
