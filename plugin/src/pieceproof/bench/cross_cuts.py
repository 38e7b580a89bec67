"""Cutting strip sets across into segments, and whether a set gives as many as it is said to.

In: a flat thing of strips and a `CrossCut`; a `Publication`. Out: segments; disagreements.
"""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import Flat, flat, is_rectangle, pared, turned
from pieceproof.bench.words import Disagreement, count_excess, counted, excess, length
from pieceproof.lengths import floor_to
from pieceproof.published import Make, Publication
from pieceproof.shapes import bounds
from pieceproof.steps import CrossCut, Side, Take

_SQUARING = {"inch": Fraction(1, 2), "centimetre": Fraction(1)}  # common practice
"""What truing the ends takes off a strip at the least."""

_TO_LEFT = {Side.LEFT: 0, Side.BOTTOM: 1, Side.RIGHT: 2, Side.TOP: 3}


def segments(thing: Flat, step: CrossCut) -> tuple[Flat, ...]:
    """The segments in the order they are cut, all alike as every strip runs the whole way."""
    quarters = _TO_LEFT[step.side]
    level = turned(thing, quarters)
    across = {bounds([face.outline]).width for face in level.faces}
    if not is_rectangle(level) or across != {level.width}:
        raise CannotSew("strips that run from end to end", "cloth that changes along the cut")
    if step.count < 1 or step.width <= 0:
        raise CannotSew("at least one segment", f"{step.count}, {length(step.width)} wide")
    used = step.width * step.count
    if used >= level.width:
        raise CannotSew(
            f"more than {length(used)} to cut {counted(step.count, 'segment')} from",
            length(level.width),
            excess(level.width, used, "", "too short"),
        )
    zero = Fraction(0)
    piece = flat(pared(level, zero, zero, level.width - step.width, zero))
    return (turned(piece, -quarters % 4),) * step.count


def prove_segments(publication: Publication) -> Iterable[Disagreement]:
    """Strips of one length in a set, segments that the ruler shows, as many as they give."""
    longest = {piece.letter: piece.long for piece in publication.pieces}
    for make in publication.makes:
        taken = [s.source for s in make.steps if isinstance(s, Take) and s.source in longest]
        for step in (s for s in make.steps if isinstance(s, CrossCut)):
            yield from _prove_cut(make, step, [longest[letter] for letter in taken], publication)


def _prove_cut(
    make: Make, step: CrossCut, strips: list[Fraction], publication: Publication
) -> Iterable[Disagreement]:
    grid = publication.step
    if grid <= 0 or (step.width / grid).denominator != 1:
        expected = f"segments in multiples of {length(grid)}"
        yield Disagreement(make.name, 0, "", "", expected, length(step.width), "")
        return
    if step.width <= 0 or not strips:
        return
    squaring = _SQUARING.get(publication.measure, Fraction(0))
    given = max(1, int(floor_to((min(strips) - squaring) / step.width, Fraction(1))))
    if step.count != given:
        yield Disagreement(
            make.name, 0, "", "", f"{counted(given, 'segment')} from a strip set",
            str(step.count), count_excess(step.count, given),
        )  # fmt: skip
