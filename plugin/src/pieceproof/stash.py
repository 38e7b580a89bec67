"""What cloth a maker may already have that serves: precuts by their usual sizes, and scraps.

In: a publication. Out: which of them every piece of the units and blocks can be cut from. Borders,
sashing, binding and back need cloth from the bolt in any case. Whether one has enough is not asked.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.model import Measure
from pieceproof.published import MakeKind, Piece, Publication
from pieceproof.requirements import CM_PER_INCH


@dataclass(frozen=True)
class Cut:
    """Cloth as it is sold or saved: its sides in inches, the short one first."""

    name: str
    short: Fraction
    long: Fraction


PRECUTS = (
    # As the trade sells them, the widths without selvages: common practice.
    Cut('5" squares', Fraction(5), Fraction(5)),
    Cut('2 1/2" strips', Fraction(5, 2), Fraction(40)),
    Cut('10" squares', Fraction(10), Fraction(10)),
    Cut("fat quarters", Fraction(18), Fraction(20)),
)
SCRAP = Cut("scraps", Fraction(5), Fraction(8))


def precuts_for(publication: Publication) -> tuple[str, ...]:
    """The precuts that every piece of the units and blocks fits on; none where there is no such."""
    return tuple(cut.name for cut in PRECUTS if _serves(publication, cut))


def scraps_serve(publication: Publication) -> bool:
    """Whether every piece of the units and blocks fits on a scrap of 5 x 8 in."""
    return _serves(publication, SCRAP)


def _serves(publication: Publication, cut: Cut) -> bool:
    inch = CM_PER_INCH if publication.measure == Measure.CENTIMETRE.value else Fraction(1)
    pieces = _pieces(publication)
    fits = (p.short <= cut.short * inch and p.long <= cut.long * inch for p in pieces)
    return bool(pieces) and all(fits)


def _pieces(publication: Publication) -> tuple[Piece, ...]:
    small = {m.name for m in publication.makes if m.kind in (MakeKind.UNIT, MakeKind.BLOCK)}
    return tuple(piece for piece in publication.pieces if small.intersection(piece.uses))
