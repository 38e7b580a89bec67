"""What an explanation of a problem consists of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Explained:
    """What a problem means, how it looks (``wrong``), how it looks mended, and what to do.

    ``wrong`` and ``right`` are as they stand in a file; ``right`` is empty where nothing in a file
    is to be changed.
    """

    means: str
    wrong: str
    right: str
    remedy: str


@dataclass(frozen=True)
class Topic:
    """Explanations that belong together, by code in the order of the alphabet."""

    title: str
    codes: Mapping[str, Explained]
