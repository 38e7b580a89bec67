"""Pieces that each show one motif of a print: fussy cutting.

In: a piece, how far the motifs lie apart, the cloth's width. Out: how many lie side by side, how
many rows it takes, the length of cloth that is enough wherever the first motif lies.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from quicktions import Fraction

from pieceproof.model import Motif


@dataclass(frozen=True)
class Fussy:
    """``count`` pieces of a letter, each ``across`` by ``along`` with a motif in its middle.

    ``abreast`` lie side by side, ``apart_across`` from middle to middle; the ``rows`` are
    ``apart_along`` from each other. ``length`` of cloth holds so many rows in any case.
    """

    letter: str
    across: Fraction
    along: Fraction
    count: int
    abreast: int
    apart_across: Fraction
    rows: int
    apart_along: Fraction
    repeat_across: Fraction
    repeat_along: Fraction
    length: Fraction


def fussy_cut(
    letter: str, size: tuple[Fraction, Fraction], count: int, motif: Motif, width: Fraction
) -> Fussy | None:
    """The pieces on the cloth; None where its width may hold no whole motif.

    Of motifs ``r`` apart a stretch ``l`` has at least ``l // r`` whose middles lie in it, wherever
    it begins; middles may lie in the width less one piece. Where a piece is larger than the repeat
    every second or third motif is used. One repeat more than the rows ask for is bought, since
    nobody knows where the shop cuts.
    """
    across, along = size
    every_across, every_along = ceil(across / motif.across), ceil(along / motif.along)
    seen = max(0, (width - across) // motif.across)
    abreast = ceil(Fraction(int(seen), every_across))
    if not abreast:
        return None
    rows = ceil(Fraction(count, abreast))
    apart = every_along * motif.along
    return Fussy(
        letter,
        across,
        along,
        count,
        abreast,
        every_across * motif.across,
        rows,
        apart,
        motif.across,
        motif.along,
        (rows - 1) * apart + motif.along + along,
    )
