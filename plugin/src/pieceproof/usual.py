"""The metric handbooks' addition for squares that are cut on the diagonal, and what it lacks.

In: a make in centimetres and the pieces it takes. Out: the usual addition and by how much it is
short, both from the geometry of the seam; None where no such square is cut or it is enough. Books
state metric additions to the nearest half centimetre (a metric geese page of 2012 adds 2.5 and
3.5 cm for seams of 0.75); ours are exact and rounded up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.lengths import Number, Surd, floor_to
from pieceproof.model import Measure
from pieceproof.published import Make, Piece
from pieceproof.steps import Take

_TENTH_OF_A_MILLIMETRE = Fraction(1, 100)
_HALF_CENTIMETRE = Fraction(1, 2)


@dataclass(frozen=True)
class UsualAddition:
    """What handbooks add to a finished side for the square ``letter``, ``short`` of enough."""

    letter: str
    addition: Fraction
    short: Number

    @property
    def shown(self) -> Fraction:
        """What it lacks, to the nearest tenth of a millimetre."""
        return floor_to(self.short + _TENTH_OF_A_MILLIMETRE / 2, _TENTH_OF_A_MILLIMETRE)


def usual_addition(
    measure: Measure, seam: Fraction, make: Make, pieces: Mapping[str, Piece]
) -> UsualAddition | None:
    """Of the first square that is the make's side, two seams, and seams on a diagonal besides."""
    finished = make.width - 2 * seam
    taken = (step.source for step in make.steps if isinstance(step, Take))
    for letter in taken if measure is Measure.CENTIMETRE else ():
        piece = pieces.get(letter)
        if piece is None or piece.template is not None or piece.short != piece.long:
            continue
        added = piece.needed_short - finished
        usual = floor_to(added + _HALF_CENTIMETRE / 2, _HALF_CENTIMETRE)
        if _is_a_root(added - 2 * seam) and usual < added:
            return UsualAddition(letter, usual, added - usual)
    return None


def _is_a_root(number: Number) -> bool:
    """Whether a number is a root alone, such as a seam times root 2."""
    return isinstance(number, Surd) and isinstance(number * number, Fraction)
