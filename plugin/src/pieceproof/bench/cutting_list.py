"""Proves the cutting list as such: letters, sizes on the ruler's grid, what is rounded up.

In: a `Publication`. Out: disagreements. Whether the pieces fit is for the sewing to say.
"""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from pieceproof.bench.counting import sources_of, things_of
from pieceproof.bench.templates import prove_template
from pieceproof.bench.words import Disagreement, excess, length, size
from pieceproof.lengths import Number, Surd
from pieceproof.published import Make, MakeKind, Piece, Publication
from pieceproof.steps import Trim, TrimEven, TrimToFoundation

_RULER = {"inch": Fraction(1, 8), "centimetre": Fraction(1, 10)}  # common practice


def prove_cutting_list(publication: Publication) -> Iterable[Disagreement]:
    """What is wrong with the ruler, the seam allowance and the lines of the cutting list."""
    yield from _prove_ruler(publication)
    if publication.step <= 0:
        return
    yield from _prove_letters(publication)
    for piece in publication.pieces:
        yield from _prove_piece(piece, publication)
    for make in publication.makes:
        yield from _prove_trim_sizes(make, publication.step)
        yield from _prove_oversize_used(make, publication)


def _prove_ruler(publication: Publication) -> Iterable[Disagreement]:
    expected = _RULER.get(publication.measure)
    if expected is None:
        yield _wrong("", "inch or centimetre", publication.measure)
    elif publication.step != expected:
        yield _wrong("", f"a ruler's grid of {length(expected)}", length(publication.step))
    if publication.seam <= 0:
        yield _wrong("", "a seam allowance above nothing", length(publication.seam))


def _prove_letters(publication: Publication) -> Iterable[Disagreement]:
    letters = [piece.letter for piece in publication.pieces]
    names = [thing.name for make in publication.makes for thing in things_of(make)]
    for name in sorted({n for n in letters + names if (letters + names).count(n) > 1}):
        yield _wrong(name, "one piece or make of this name", "more than one")


def _prove_piece(piece: Piece, publication: Publication) -> Iterable[Disagreement]:
    if not 0 < piece.short <= piece.long:
        yield _wrong(piece.letter, "the short side first", size(piece.short, piece.long))
    if not piece.fabric:
        yield _wrong(piece.letter, "a fabric", "none")
    rooms = _rooms(piece, publication.step)
    sides = ((piece.short, piece.needed_short), (piece.long, piece.needed_long))
    for (cut, needed), room, larger in zip(sides, rooms, _larger(piece), strict=True):
        least = needed + larger
        yield from _prove_rounding(piece.letter, cut, least, publication.step, least + room)
    yield from _prove_oversize(piece, publication)
    if piece.template is None:
        yield from _prove_exact_where_untrimmed(piece, publication)
    else:
        yield from prove_template(piece, piece.template, publication.step)
    yield from _prove_uses(piece, publication)


def _rooms(piece: Piece, step: Fraction) -> tuple[Fraction, Fraction]:
    """How much above the needed sizes the short and the long side must not reach.

    Two steps of the ruler; where the cut keeps the needed proportions, as one from corner to
    corner must, the next larger size on the ruler that keeps them.
    """
    if piece.needed_long <= 0:
        return 2 * step, 2 * step
    proportion = piece.needed_short / piece.needed_long
    if isinstance(proportion, Surd) or proportion * piece.long != piece.short:
        return 2 * step, 2 * step
    return max(2, proportion.numerator) * step, max(2, proportion.denominator) * step


def _larger(piece: Piece) -> tuple[Number, Number]:
    """By how much the short and the long side are cut larger than needed on purpose."""
    if piece.oversize <= 0 or piece.needed_short <= 0:
        return piece.oversize, piece.oversize
    return piece.oversize, piece.oversize * piece.needed_long / piece.needed_short


def _prove_oversize(piece: Piece, publication: Publication) -> Iterable[Disagreement]:
    """What takes a piece trims away what it is cut larger on purpose, and says so."""
    for make in publication.makes:
        if piece.letter in sources_of(make) and piece.oversize != make.oversize:
            exact = (piece.short, piece.long) == (piece.needed_short, piece.needed_long)
            if piece.oversize or not exact:
                expected = f"an oversize of {length(make.oversize)}, as {make.name} says"
                yield _wrong(piece.letter, expected, length(piece.oversize))


def _prove_oversize_used(make: Make, publication: Publication) -> Iterable[Disagreement]:
    used = sources_of(make)
    if make.oversize and not any(p.oversize for p in publication.pieces if p.letter in used):
        expected = f"a piece cut {length(make.oversize)} larger than needed, as it says"
        yield Disagreement(make.name, 0, "", "", expected, "none", "")


def _prove_rounding(
    letter: str, cut: Fraction, needed: Number, step: Fraction, limit: Number
) -> Iterable[Disagreement]:
    if (cut / step).denominator != 1:
        yield _wrong(letter, f"a multiple of {length(step)}", length(cut))
    if cut < needed:
        by = excess(cut, needed, "too large", "too small")
        yield _wrong(letter, f"at least {length(needed)}", length(cut), by)
    if cut >= limit:
        by = excess(cut, needed, "more than needed", "")
        yield _wrong(letter, f"less than {length(limit)}", length(cut), by)


def _prove_exact_where_untrimmed(piece: Piece, publication: Publication) -> Iterable[Disagreement]:
    """Nothing takes a surplus off again in a make without trimming."""
    cut, needed = (piece.short, piece.long), (piece.needed_short, piece.needed_long)
    for make in publication.makes:
        if cut != needed and piece.letter in sources_of(make) and not _trims(make, publication):
            expected = f"exactly {size(*needed)}, as {make.name} is not trimmed"
            yield _wrong(piece.letter, expected, size(*cut))


def _prove_uses(piece: Piece, publication: Publication) -> Iterable[Disagreement]:
    expected = sorted(m.name for m in publication.makes if piece.letter in sources_of(m))
    if sorted(piece.uses) != expected:
        yield _wrong(
            piece.letter,
            f"used in {', '.join(expected) or 'nothing'}",
            f"listed for {', '.join(piece.uses) or 'nothing'}",
        )


def _prove_trim_sizes(make: Make, step: Fraction) -> Iterable[Disagreement]:
    for trim in (s for s in make.steps if isinstance(s, Trim | TrimEven)):
        if any((side / step).denominator != 1 for side in (trim.width, trim.height)):
            expected = f"a trimmed size that the ruler shows, in multiples of {length(step)}"
            yield Disagreement(make.name, 0, "", "", expected, size(trim.width, trim.height), "")


def _trims(make: Make, publication: Publication) -> bool:
    """Whether a make is trimmed; a triangle is where all that takes it is."""
    if make.kind is MakeKind.TRIANGLE:
        users = [user for user in publication.makes if make.name in sources_of(user)]
        return all(_trims(user, publication) for user in users)
    return any(isinstance(step, Trim | TrimEven | TrimToFoundation) for step in make.steps)


def _wrong(letter: str, expected: str, found: str, by: str = "") -> Disagreement:
    return Disagreement("cutting list", 0, "", letter, expected, found, by)
