"""The shop's own patterns: they prove, and the numbers of their smallest sizes are held.

Every number of the first three is changed; of the others, whose methods have tests of their own,
every few.

The cloth is mutated in `tests/unit/test_cloth_bites.py`, the texts of facts in `tests/unit`.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from bites import missed
from mutate import mutations

from pieceproof.compile import Pattern, compile_pattern

PATTERNS = Path(__file__).parents[2] / "patterns"
SLUGS = sorted(path.name for path in PATTERNS.iterdir() if (path / "pattern.yaml").exists())
SHARES = range(4)
WHOLE = ("ferry-wake", "heron-landing", "weir-pool")
MOST = 8


@cache
def compiled(slug: str) -> Pattern:
    folder = PATTERNS / slug
    return compile_pattern(slug, {f.name: f.read_bytes() for f in folder.iterdir() if f.is_file()})


@pytest.mark.parametrize("slug", SLUGS)
def test_every_size_is_proved(slug: str) -> None:
    pattern = compiled(slug)
    assert not pattern.problems
    assert pattern.sizes


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("slug", SLUGS)
def test_every_changed_number_is_noticed(slug: str, share: int) -> None:
    size = min(compiled(slug).sizes, key=lambda s: len(s.publication.pieces) + s.publication.width)
    publication, drawing = size.publication, size.drawing
    changed = list(mutations(publication))
    if slug not in WHOLE:
        changed = changed[:: 1 + len(changed) // MOST]
    changed = changed[share :: len(SHARES)]
    assert changed
    assert not missed(publication, drawing, changed)
