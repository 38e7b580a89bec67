"""The shop's own patterns: `pieceproof check` finds nothing, and the numbers of their smallest
sizes are held.

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

from pieceproof.folders import read_folders
from pieceproof.review.checked import checked
from pieceproof.shelf import Shelved, compile_folders

PATTERNS = Path(__file__).parents[2] / "patterns"
SLUGS = sorted(path.name for path in PATTERNS.iterdir() if (path / "pattern.yaml").exists())
SHARES = range(4)
WHOLE = ("ferry-wake", "heron-landing", "weir-pool")
MOST = 8


@cache
def shelved(slug: str) -> Shelved:
    folders, problems = read_folders(PATTERNS)
    assert not problems
    return compile_folders({slug: folders[slug]}, {})[slug]


@pytest.mark.parametrize("slug", SLUGS)
def test_every_check_passes(slug: str) -> None:
    """All that the command checks: proofs, prose, facts files and releases."""
    (found,) = checked({slug: shelved(slug)}, ())
    assert found.problems == ()
    assert found.summary.startswith("proved in ")


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("slug", SLUGS)
def test_every_changed_number_is_noticed(slug: str, share: int) -> None:
    sizes = shelved(slug).pattern.sizes
    size = min(sizes, key=lambda s: len(s.publication.pieces) + s.publication.width)
    publication, drawing = size.publication, size.drawing
    changed = list(mutations(publication))
    if slug not in WHOLE:
        changed = changed[:: 1 + len(changed) // MOST]
    changed = changed[share :: len(SHARES)]
    assert changed
    assert not missed(publication, drawing, changed)
