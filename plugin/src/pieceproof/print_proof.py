"""Do prints lie as they should: upright where they run one way, a motif amid each piece?

In: a design, its publication and one cloth's need. Out: one sentence for each fault. Which way up
pieces end is read off the top that the bench has sewn; motifs are laid out one by one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.bench.standing import Stood, stood
from pieceproof.cutting.demand import Long, Want
from pieceproof.model import Design, Print
from pieceproof.published import Publication
from pieceproof.requirements import Need

Ends: TypeAlias = Mapping[str, Stood]
"""How the pieces of each letter ended in the sewn top."""


def ends_of(design: Design, publication: Publication) -> Ends:
    """Sew the top, if a print of it runs one way."""
    directional = any(fabric.print is Print.DIRECTIONAL for fabric in design.fabrics.values())
    return stood(publication) if directional else {}


def print_faults(design: Design, publication: Publication, need: Need, ends: Ends) -> Iterator[str]:
    """Nothing is kept from being turned without a reason, and what runs one way stays upright.

    The bench has sewn the top; the pieces' threads in it say which way up each of them ended.
    """
    directional = {n for n, f in design.fabrics.items() if f.print is Print.DIRECTIONAL}
    pieces = {p.letter: p for p in publication.pieces}
    ruler = Fraction(24) if publication.measure == "inch" else Fraction(60)
    kept: dict[str, list[tuple[bool, int]]] = {}
    items: list[Want | Long] = [*need.demand.wants, *need.demand.longs]
    for item in items:
        piece = pieces.get(item.letter.partition(" ")[0])
        seen = ends.get(piece.letter) if piece and piece.fabric in directional else None
        if piece and seen and not seen.askew and piece.short != piece.long:
            kept.setdefault(piece.letter, []).append((_is_upright(item), item.count))
            if isinstance(item, Want) and item.turnable:
                yield f"{item.letter}: may be turned, though its print runs one way"
        elif isinstance(item, Want):
            yield from _turn_faults(item, piece is not None, ruler, need.usable_width)
    for letter, lies in kept.items():
        seen = ends[letter]
        count, upright = pieces[letter].count, sum(n for up, n in lies if up)
        share = Fraction(seen.upright, seen.upright + seen.level) * count
        if not share <= upright < share + 1:
            yield f"{letter}: {upright} of {count} are cut upright, {share} end upright"


def _turn_faults(want: Want, is_piece: bool, ruler: Fraction, width: Fraction) -> Iterator[str]:
    """A narrow piece longer than a ruler is cut across the cloth; any other may be turned."""
    long, short = max(want.across, want.along), min(want.across, want.along)
    is_strip = is_piece and ruler < long <= width and long >= 4 * short
    if want.turnable and is_strip:
        yield f"{want.letter}: may be turned, though it is a strip across the cloth"
    if not want.turnable and (not is_strip or want.across != long):
        yield f"{want.letter}: may not be turned, though nothing forbids it"


def _is_upright(item: Want | Long) -> bool:
    """Whether the long side is cut along the cloth, as the print runs."""
    return item.along > item.across if isinstance(item, Want) else item.way == "lengthwise"


def motif_faults(design: Design, publication: Publication, need: Need) -> Iterator[str]:
    """Lay every motif on the cloth, begun at the worst place, and count the pieces round them."""
    planned = {fussy.letter: fussy for fussy in need.fussy}
    for piece in publication.pieces:
        motif = design.fabrics[piece.fabric].motif
        if piece.fabric not in need.fabrics or motif is None:
            continue
        fussy = planned.pop(piece.letter, None)
        if fussy is None:
            yield f"{piece.letter}: no motifs are planned"
            continue
        size = (fussy.across, fussy.along, fussy.count)
        if size != (piece.short, piece.long, piece.count):
            yield f"{piece.letter}: planned as {size}"
        if (fussy.repeat_across, fussy.repeat_along) != (motif.across, motif.along):
            yield f"{piece.letter}: planned for another print"
        abreast = motifs_on(need.usable_width, fussy.across, motif.across)
        rows = motifs_on(fussy.length, fussy.along, motif.along)
        fewer = motifs_on(fussy.length - need.demand.step, fussy.along, motif.along)
        if abreast != fussy.abreast or rows != fussy.rows or fewer >= rows:
            yield f"{piece.letter}: {abreast} motifs side by side, {rows} rows"
        if not (rows - 1) * abreast < piece.count <= rows * abreast:
            yield f"{piece.letter}: {rows} rows of {abreast} for {piece.count}"
        for side, apart, repeat in (
            (fussy.across, fussy.apart_across, motif.across),
            (fussy.along, fussy.apart_along, motif.along),
        ):
            if apart < side or apart - repeat >= side or (apart / repeat).denominator != 1:
                yield f"{piece.letter}: {apart} from motif to motif"
    yield from (f"{letter}: has no motif" for letter in planned)


def motifs_on(length: Fraction, piece: Fraction, repeat: Fraction) -> int:
    """Pieces that find a motif of their own where the first one has just been cut off."""
    used, middle, end = 0, piece / 2, piece / 2
    while True:
        middle += repeat
        if middle + piece / 2 > length:
            return used
        if used == 0 or middle - piece / 2 >= end:
            used, end = used + 1, middle + piece / 2
