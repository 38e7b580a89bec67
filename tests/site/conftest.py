"""The small shop, built once."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_shop import built_shop


@pytest.fixture(scope="session")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop's folder with its site built into ``site``."""
    return built_shop(tmp_path_factory)
