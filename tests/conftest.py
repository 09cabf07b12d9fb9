"""Settings for every test."""

import os

from hypothesis import settings

# A busy machine is no fault of the code: examples are judged by their result, never by the clock. The same
# examples every time, so that what passed here passes there; CASEBOOK_EXPLORE=1 draws new ones.
settings.register_profile("casebook", deadline=None, derandomize=not os.environ.get("CASEBOOK_EXPLORE"))
settings.load_profile("casebook")

pytest_plugins = ["tests.line"]
