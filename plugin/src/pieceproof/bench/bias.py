"""How long a bias strip a square really gives: it is cut up, and the strips are measured.

In: a square, the strip's width, the seam allowance. Out: the length. Both triangles of the square
are cut along every line, and the area of each strip's two parts tells how long they are.
"""

from __future__ import annotations

from quicktions import Fraction

from pieceproof.bench.table import Faces, cloth, covered, cut_faces
from pieceproof.lengths import Number, square_root
from pieceproof.shapes import Line


def bias_strip(side: Fraction, width: Fraction, seam: Fraction) -> Number:
    """The length of all strips between the sewn-off points, joined; 0 if there is none."""
    zero, half = Fraction(0), square_root(Fraction(1, 2))
    diagonal = Line(-half, -half, -half * side)
    triangle = cut_faces(cloth("", "", side, side).faces, diagonal)
    lost = 2 * seam * square_root(2)
    far, strips = diagonal.at((zero, zero)), []
    low: Number = lost / 2
    while low + width <= far - lost / 2:
        one = _slice(triangle, diagonal, low, low + width)
        other = _slice(triangle, diagonal, far - low - width, far - low)
        strips.append((covered(one) + covered(other)) / width)
        low = low + width
    total: Number = zero
    for strip in strips:
        total = total + strip - 2 * lost
    return total + lost if strips else zero


def _slice(triangle: Faces, edge: Line, low: Number, high: Number) -> Faces:
    """What lies between two distances from an edge."""
    near = Line(edge.a, edge.b, edge.c + low)
    return cut_faces(cut_faces(triangle, near), Line(-edge.a, -edge.b, -edge.c - high))
