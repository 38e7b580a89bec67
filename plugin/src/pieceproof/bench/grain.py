"""The grain of a sewn thing's outer edges.

In: a publication that is proved, and one of its makes. Out: how much of one thing's raw outer edge
runs on the bias, which stretches; threads are followed through every turn and fold.
"""

from __future__ import annotations

from collections.abc import Iterator

from quicktions import Fraction

from pieceproof.bench.table import Face, Flat
from pieceproof.bench.watch import sewn_makes
from pieceproof.lengths import Number
from pieceproof.published import Make, Publication


def bias_around(publication: Publication, make: Make) -> Number:
    """The length of a make's raw outer edges that lie along no thread of the cloth."""
    before = publication.makes[: publication.makes.index(make) + 1]
    thing = sewn_makes(publication, before)[make.name]
    total: Number = Fraction(0)
    for face in thing.faces:
        if face.grain[0] != 0 and face.grain[1] != 0:
            total = sum(_on_the_edge(thing, face), total)
    return total


def _on_the_edge(thing: Flat, face: Face) -> Iterator[Number]:
    """Lengths of a face's sides that lie on the thing's upright or level outer edges."""
    outline = face.outline
    for (px, py), (qx, qy) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if px == qx and px in (Fraction(0), thing.width):
            yield max(qy - py, py - qy)
        elif py == qy and py in (Fraction(0), thing.height):
            yield max(qx - px, px - qx)
