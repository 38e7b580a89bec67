"""How large a square gives a bias strip of some length, cut in one continuous piece.

In: the strip's length and cut width, the seam allowance. Out: the side of the square. The way it is
sewn: the square is cut in two along a diagonal; the two triangles are sewn together along two of
their short sides to a parallelogram whose long sides lie on the bias; lines are drawn along these
sides, one strip's width apart; the other two sides are sewn to a tube, shifted by one line; the
tube is cut open along the line that now winds round it.

With a square of side a, strips w wide and seams of allowance q:

* a long side is the diagonal, a root 2, and the long sides lie a / root 2 apart;
* every strip runs over one seam of the parallelogram and into the next strip over one seam of the
  tube. Both cross it at 45 degrees, so each takes q root 2 from either end: 2 q root 2 of length.
  n strips have 2 n - 1 such seams;
* the point of a triangle is sewn away up to q root 2 from either long side: what lies there is
  not a strip.

So n = floor((a / root 2 - 2 q root 2) / w), and the strip is n a root 2 - (2 n - 1) 2 q root 2
long. Without seams, and for strips that fill the square, that is a x a / w, the rule of the trade
(side = root of length x width), which is too short by a seam or two.
"""

from __future__ import annotations

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, floor_to, square_root

_ROOT = square_root(2)


def strip_length(side: Fraction, cut_width: Fraction, seam: Fraction) -> Number:
    """The length of the strip from a square; 0 if not one strip fits."""
    reach = side / _ROOT - 2 * seam * _ROOT
    count = floor_to(reach / cut_width, Fraction(1))
    if count <= 0:
        return Fraction(0)
    return count * side * _ROOT - (2 * count - 1) * 2 * seam * _ROOT


def square_for(length: Fraction, cut_width: Fraction, seam: Fraction) -> Fraction:
    """The least whole side (in the pattern's unit) of a square that gives this length."""
    side = ceil_to(square_root(length * cut_width), Fraction(1))
    while strip_length(side, cut_width, seam) < length:
        side += 1
    return side
