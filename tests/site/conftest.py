"""The small shop, built once."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_shop import build, open_shop


@pytest.fixture(scope="session")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop's folder with its site built into ``site``."""
    folder = open_shop(tmp_path_factory.mktemp("shop"))
    done = build(folder, folder / "site")
    assert done.returncode == 0, done.stderr
    return folder
