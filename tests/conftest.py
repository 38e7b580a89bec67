"""Lets tests in all folders below import the helpers in this one, and sets how Hypothesis tries.

No deadline: a shared machine is no clock. The same examples every time, so that a red run can be
run again; set HYPOTHESIS_PROFILE=search to look for new ones.

Compiling is a pure function of a pattern's bytes: here it is done once for the same bytes, for
hundreds of tests look at the same few patterns. Programs that tests start do it anew.
"""

import os
from collections.abc import Mapping

import pytest
from hypothesis import settings

import pieceproof.compile
from pieceproof.compile import Pattern, compile_pattern

_COMPILED: dict[tuple[str, frozenset[tuple[str, bytes]]], Pattern] = {}


def _compiled_once(slug: str, files: Mapping[str, bytes]) -> Pattern:
    key = (slug, frozenset((name, bytes(data)) for name, data in files.items()))
    if key not in _COMPILED:
        _COMPILED[key] = compile_pattern(slug, files)
    return _COMPILED[key]


pieceproof.compile.compile_pattern = _compiled_once

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
