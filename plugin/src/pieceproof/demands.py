"""What is cut from one cloth: the cutting list of a group of parts as a demand for the planner.

In: a design, its publication, a group of parts, a usable width. Out: the demand, the pieces that
each show a motif, and what cannot be cut. Nothing is planned here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, Join, Long, Want, Way
from pieceproof.fussy import Fussy, fussy_cut
from pieceproof.layout import CENTRE, TOP
from pieceproof.lengths import ceil_to
from pieceproof.model import Design, LongStrips, Measure, Print, StripCut, StripJoin
from pieceproof.published import Piece, Publication
from pieceproof.standing import upright_shares

BINDING = "binding"
SLEEVE = "sleeve"
"""The binding's and the sleeve's places among the letters of a demand."""
UPRIGHT, LYING = " upright", " lying"
"""Added to a letter where its pieces need a print in two directions: how the pieces end up."""

SQUARING: Mapping[Measure, Fraction] = {
    # What the first straight cut may take: common practice.
    Measure.INCH: Fraction(1),
    Measure.CENTIMETRE: Fraction(5, 2),
}
RULER: Mapping[Measure, Fraction] = {
    # The length of the usual long ruler; a longer cut down the cloth needs it moved along a fold
    # or an edge that is not straight: common practice.
    Measure.INCH: Fraction(24),
    Measure.CENTIMETRE: Fraction(60),
}

Group = tuple[str, ...]
"""Names of fabrics in the order of the design."""


@dataclass(frozen=True)
class Asked:
    """A demand, and what is cut from the same cloth motif by motif."""

    demand: Demand
    fussy: tuple[Fussy, ...]
    problems: tuple[str, ...]


def letter_of(key: str) -> str:
    """The letter of a demand's key.

    >>> letter_of("A upright"), letter_of("binding")
    ('A', 'binding')
    """
    return key.removesuffix(UPRIGHT).removesuffix(LYING)


def standing_of(key: str) -> str:
    """How pieces under this key end up: "upright", "lying", or "" where that is all the same."""
    return key[len(letter_of(key)) :].strip()


def demand_of(
    design: Design,
    publication: Publication,
    group: Group,
    width: Fraction,
    ways: LongStrips | None = None,
) -> Asked:
    """What the group's pieces, binding and sleeve ask of one cloth; ``ways`` in place of the
    design's own say how long strips are cut.
    """
    pieces = [piece for piece in publication.pieces if piece.fabric in group]
    fussy, problems = _fussy(design, pieces, width)
    cut = [piece for piece in pieces if design.fabrics[piece.fabric].motif is None]
    strips = ways or design.long_strips
    wants = [want for piece in cut for want in _wants(design, publication, piece, width)]
    longs = [long for piece in cut for long in _longs(design, publication, piece, width, strips)]
    more, joined = _finishing_cuts(publication, group, width)
    squaring = SQUARING[design.measure]
    demand = Demand((*wants, *more), (*longs, *joined), width, publication.step, squaring)
    return Asked(demand, fussy, problems)


def _fussy(
    design: Design, pieces: Sequence[Piece], width: Fraction
) -> tuple[tuple[Fussy, ...], tuple[str, ...]]:
    found, problems = [], []
    for piece in pieces:
        motif = design.fabrics[piece.fabric].motif
        if motif is not None:
            size = (piece.short, piece.long)
            cut = fussy_cut(piece.letter, size, piece.count, motif, width)
            found += [cut] if cut else []
            problems += [] if cut else [_no_motif(design, piece)]
    return tuple(found), tuple(problems)


def _no_motif(design: Design, piece: Piece) -> str:
    show = design.measure.show
    return (
        f"{piece.letter}: the cloth's width may hold no whole motif for a piece "
        f"{show(piece.short)} wide"
    )


def _wants(
    design: Design, publication: Publication, piece: Piece, width: Fraction
) -> Iterator[Want]:
    if is_joined(piece, width):
        return
    standing = standing_counts(design, publication, piece)
    if standing is not None:
        for key, count, is_upright in standing:
            sides = (piece.short, piece.long) if is_upright else (piece.long, piece.short)
            yield Want(key, *sides, count, turnable=False)
    elif is_strip(design.measure, piece, width):
        yield Want(piece.letter, piece.long, piece.short, piece.count, turnable=False)
    else:
        yield Want(piece.letter, piece.short, piece.long, piece.count, turnable=True)


def _longs(
    design: Design, publication: Publication, piece: Piece, width: Fraction, ways: LongStrips
) -> Iterator[Long]:
    """Strips that are joined, or cut along the selvage; those of a directional print as it runs."""
    if not is_joined(piece, width):
        return
    join: Join = "straight" if ways.join is StripJoin.STRAIGHT else "diagonal"
    way: Way = "lengthwise" if ways.cut is StripCut.LENGTHWISE else "crosswise"
    size, seam = (piece.short, piece.long), publication.seam
    standing = standing_counts(design, publication, piece)
    if standing is None:
        yield Long(piece.letter, *size, piece.count, join, seam, way)
        return
    for key, count, is_upright in standing:
        yield Long(key, *size, count, join, seam, "lengthwise" if is_upright else "crosswise")


def standing_counts(
    design: Design, publication: Publication, piece: Piece
) -> list[tuple[str, int, bool]] | None:
    """Key, count and whether upright, for pieces whose print runs one way; None for others.

    Spares are shared out alike. A piece that stands askew in the top has no right way up.
    """
    is_directional = design.fabrics[piece.fabric].print is Print.DIRECTIONAL
    share = upright_shares(publication)[piece.letter] if is_directional else None
    if share is None or piece.short == piece.long:
        return None
    upright = ceil(share * piece.count)
    counts = [(UPRIGHT, upright, True), (LYING, piece.count - upright, False)]
    needed = [entry for entry in counts if entry[1]]
    both = len(needed) > 1
    return [(piece.letter + (name if both else ""), count, up) for name, count, up in needed]


def is_joined(piece: Piece, width: Fraction) -> bool:
    """Borders and sashing too long for the cloth are joined; anything else is cut in one.

    What is short for its width looks better whole, along the selvage: common practice.
    """
    is_edge = set(piece.uses) <= {TOP, CENTRE} and piece.long >= 4 * piece.short
    return is_edge and piece.long > width > 2 * piece.short


def is_strip(measure: Measure, piece: Piece, width: Fraction) -> bool:
    """What is longer than a ruler and narrow is cut as a strip across the cloth where it fits."""
    return RULER[measure] < piece.long <= width and piece.long >= 4 * piece.short


def _finishing_cuts(
    publication: Publication, group: Group, width: Fraction
) -> tuple[Sequence[Want], Sequence[Long]]:
    """Binding strips, or the square of a bias binding; and sleeves, joined where they must be."""
    binding, sleeve, count = publication.binding, publication.sleeve, publication.quantity
    wants, longs = [], []
    if binding is not None and binding.fabric in group:
        if binding.square is not None:
            wants.append(Want(BINDING, binding.square, binding.square, count, turnable=True))
        else:
            length = ceil_to(binding.length, publication.step)
            longs.append(_long(publication, BINDING, binding.cut_width, length, count))
    if sleeve is not None and sleeve.fabric in group:
        if sleeve.length <= width:
            wants.append(Want(SLEEVE, sleeve.cut_width, sleeve.length, count, turnable=True))
        else:
            longs.append(_long(publication, SLEEVE, sleeve.cut_width, sleeve.length, count))
    return wants, longs


def _long(
    publication: Publication, letter: str, width: Fraction, length: Fraction, count: int
) -> Long:
    """Joined on the diagonal, as bindings and sleeves are."""
    return Long(letter, width, length, count, "diagonal", publication.seam)
