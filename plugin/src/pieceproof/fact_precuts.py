"""Which precut cloth a part could be cut from instead, as facts.

In: a design and parts cut from precuts. Out: one fact for each part and kind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pieceproof.facts import Fact, called
from pieceproof.model import Design
from pieceproof.precuts import FromPrecuts


def precut_facts(design: Design, precuts: Sequence[FromPrecuts]) -> Iterator[Fact]:
    """``background, from fat quarters = 2``."""
    names = called(design)
    for found in precuts:
        count, sheet = len(found.cut), found.cut[0].sheet
        size = f"{design.measure.show(sheet.width)} x {design.measure.show(sheet.length)}"
        key = f"{names[found.fabric]}, from {found.name} of {size}"
        yield Fact(key, str(count), str(count), str(count))
