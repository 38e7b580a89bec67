"""Lets tests in all folders below import the helpers in this one, and sets how Hypothesis tries.

No deadline: a shared machine is no clock. The same examples every time, so that a red run can be
run again; set HYPOTHESIS_PROFILE=search to look for new ones.
"""

import os

from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.register_profile("search", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))
