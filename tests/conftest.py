"""Lets tests in all folders below import the helpers in this one, and sets how Hypothesis tries.

No deadline: a shared machine is no clock. The same examples every time, so that a red run can be
run again; set HYPOTHESIS_PROFILE=search to look for new ones.
"""

import os

import pytest
from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.register_profile("search", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Python's own one-byte strings are as they were.

    `quicktions` up to 1.24 overwrites the first of them where it is given a text of one digit.
    Texts become numbers in `lengths`, from whole numbers.
    """
    every = bytes(range(256))
    if any(ord(every[at : at + 1]) != at for at in every):
        session.exitstatus = pytest.ExitCode.INTERNAL_ERROR
        raise RuntimeError("a text was given to quicktions.Fraction")
