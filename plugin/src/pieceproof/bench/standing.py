"""Which way up the pieces of each letter lie in the sewn top.

In: a publication that is proved. Out: for each letter, how many faces of the top have their piece's
long side upright, level or askew; threads are followed through every turn and fold.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pieceproof.bench.watch import sewn_makes
from pieceproof.published import Publication


@dataclass(frozen=True)
class Stood:
    """Faces by the way the long side of their piece runs."""

    upright: int
    level: int
    askew: int


def stood(publication: Publication) -> Mapping[str, Stood]:
    """By letter; letters of which nothing shows are left out."""
    top = sewn_makes(publication, publication.makes)[publication.makes[-1].name]
    counts: dict[str, list[int]] = {}
    for face in top.faces:
        x, y = face.grain
        way = 0 if y == 0 else 1 if x == 0 else 2
        counts.setdefault(face.letter, [0, 0, 0])[way] += 1
    return {letter: Stood(*found) for letter, found in counts.items()}
