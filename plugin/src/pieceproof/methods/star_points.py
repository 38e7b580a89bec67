"""Stars of diamonds round a centre, the common part of two methods.

Diamonds of side a lie round a centre; their sides from it point at even angles, the first to the
right, then clockwise. A diamond's tip is the sum of its two sides from the centre. They are sewn
to pairs, pairs to halves, and the halves by one straight seam through the centre; then the ground
is set in.
"""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from pieceproof.lengths import Number, square_root
from pieceproof.methods.templates import Shaped
from pieceproof.shapes import Point

EIGHTH = square_root(Fraction(1, 2))
SIXTH = square_root(Fraction(3, 4))
_ONE, _HALF, _ZERO = Fraction(1), Fraction(1, 2), Fraction(0)

EIGHTHS: tuple[Point, ...] = (
    (_ONE, _ZERO), (EIGHTH, EIGHTH), (_ZERO, _ONE), (-EIGHTH, EIGHTH),
    (-_ONE, _ZERO), (-EIGHTH, -EIGHTH), (_ZERO, -_ONE), (EIGHTH, -EIGHTH),
)  # fmt: skip
"""Unit directions by eighths of a turn, clockwise from the right."""

TWELFTHS: tuple[Point, ...] = (
    (_ONE, _ZERO), (SIXTH, _HALF), (_HALF, SIXTH), (_ZERO, _ONE), (-_HALF, SIXTH), (-SIXTH, _HALF),
    (-_ONE, _ZERO), (-SIXTH, -_HALF), (-_HALF, -SIXTH), (_ZERO, -_ONE), (_HALF, -SIXTH),
    (SIXTH, -_HALF),
)  # fmt: skip
"""Unit directions by twelfths of a turn."""

SIXTHS = TWELFTHS[::2]


def moved_by(place: Point, way: Point, distance: Number) -> Point:
    """The place so far along a unit direction."""
    return (place[0] + way[0] * distance, place[1] + way[1] * distance)


def diamonds(
    centre: Point, side: Number, ways: Sequence[Point], fabrics: Sequence[str]
) -> tuple[Shaped, ...]:
    """One diamond between each two directions, ``point 1`` first; fabrics take turns."""
    count = len(ways)
    shapes = []
    for i in range(count):
        first, last = (moved_by(centre, ways[j % count], side) for j in (i, i + 1))
        tip = (first[0] + last[0] - centre[0], first[1] + last[1] - centre[1])
        fabric = fabrics[i % len(fabrics)]
        shapes.append(Shaped(f"point {i + 1}", fabric, (centre, first, tip, last)))
    return tuple(shapes)


def star_order(points: int, ground: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Pairs or threes, halves, the whole; then the ground, piece by piece."""
    half = points // 2
    joins = []
    for start in (1, half + 1):
        if half % 2 == 0:
            joins += [(start + i, start + i + 1) for i in range(0, half, 2)]
            joins += [(start + i - 1, start + i) for i in range(2, half, 2)]
        else:
            joins += [(start + i - 1, start + i) for i in range(1, half)]
    joins.append((1, half + 1))
    named = tuple((f"point {a}", f"point {b}") for a, b in joins)
    return (*named, *(("point 1", name) for name in ground))
