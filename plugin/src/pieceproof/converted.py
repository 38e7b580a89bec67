"""A length of one unit said in the other, where no piece is cut to it.

In: a length in a pattern's unit. Out: text in the other unit. Cut sizes are never converted:
rounded to another ruler's grid they would not fit together.
"""

from __future__ import annotations

from quicktions import Fraction

from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import ceil_to, floor_to
from pieceproof.model import Measure
from pieceproof.requirements import CM_PER_INCH

OTHER = {Measure.INCH: Measure.CENTIMETRE, Measure.CENTIMETRE: Measure.INCH}
_NEAREST = {Measure.INCH: Fraction(1, 2), Measure.CENTIMETRE: Fraction(1)}


def about(measure: Measure, width: Fraction, height: Fraction) -> str:
    """A finished size to the nearest half inch or whole centimetre, in the other unit.

    >>> about(Measure.INCH, Fraction(37), Fraction(33, 2))
    '94 x 42 cm'
    """
    other = OTHER[measure]
    step = _NEAREST[other]
    sides = (floor_to(_in(other, side) + step / 2, step) for side in (width, height))
    return show_size(other, *sides)


def at_least(measure: Measure, length: Fraction) -> str:
    """A width that cloth must have, rounded up on the other unit's ruler.

    >>> at_least(Measure.INCH, Fraction(42))
    '106.7 cm'
    """
    other = OTHER[measure]
    return show_length(other, ceil_to(_in(other, length), other.step))


def _in(other: Measure, length: Fraction) -> Fraction:
    return length * CM_PER_INCH if other is Measure.CENTIMETRE else length / CM_PER_INCH
