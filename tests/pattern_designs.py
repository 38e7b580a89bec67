"""The designs of all patterns of the repository: the shop's, and those that are kept for tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from pieceproof.methods import METHODS
from pieceproof.model import Design
from pieceproof.reading import read_pattern

ROOT = Path(__file__).parents[1]


@cache
def designs() -> tuple[Design, ...]:
    """All their sizes."""
    paths = [*ROOT.glob("patterns/*/pattern.yaml"), *ROOT.glob("tests/patterns/*/pattern.yaml")]
    found = [read_pattern(f"{path.parent.name}/{path.name}", path.read_bytes(), METHODS)
             for path in sorted(paths)]  # fmt: skip
    assert not [problem for _, problems, _ in found for problem in problems]
    return tuple(design for designs, _, _ in found for design in designs)
