"""Lets tests in all folders below import the helpers in this one, and sets how Hypothesis tries.

No deadline: a shared machine is no clock. The same examples every time, so that a red run can be
run again; set HYPOTHESIS_PROFILE=search to look for new ones.

Compiling is a pure function of a pattern's bytes: here it is done once for the same bytes, for
hundreds of tests look at the same few patterns. Programs that tests start do it anew.
"""

import fcntl
import os
import pickle
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import settings

import pieceproof.compile
from pieceproof.compile import Pattern, compile_pattern

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.register_profile("search", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))

_KNOWN: dict[str, Pattern] = {}
_SHARED: list[Path] = []


def _compiled_once(slug: str, files: Mapping[str, bytes]) -> Pattern:
    read = [(name, data) for name, data in sorted(files.items()) if _is_read(name)]
    key = sha256(repr((slug, read)).encode()).hexdigest()
    if key not in _KNOWN:
        shared = _SHARED[0] / key if _SHARED else None
        _KNOWN[key] = _shared(shared, slug, files) if shared else compile_pattern(slug, files)
    return _KNOWN[key]


def _is_read(name: str) -> bool:
    """Compiling reads a design and pictures; not prose, facts or what was released."""
    return not name.endswith((".md", ".txt")) and not name.startswith("released/")


def _shared(file: Path, slug: str, files: Mapping[str, bytes]) -> Pattern:
    """The worker that comes first compiles; others wait for what it leaves behind."""
    with file.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if file.exists():
            found: Pattern = pickle.loads(file.read_bytes())
            return found
        made = compile_pattern(slug, files)
        file.write_bytes(pickle.dumps(made))
        return made


pieceproof.compile.compile_pattern = _compiled_once


@pytest.fixture(scope="session", autouse=True)
def _workers_share_what_they_compile(tmp_path_factory: pytest.TempPathFactory) -> None:
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "compiled"
    folder.mkdir(exist_ok=True)
    _SHARED.append(folder)


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Python's own one-byte strings are as they were.

    `quicktions` up to 1.24 overwrites the first of them where it is given a text of one digit.
    Texts become numbers in `lengths`, from whole numbers.
    """
    every = bytes(range(256))
    if any(ord(every[at : at + 1]) != at for at in every):
        session.exitstatus = pytest.ExitCode.INTERNAL_ERROR
        raise RuntimeError("a text was given to quicktions.Fraction")
