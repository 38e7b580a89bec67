"""Circles as polygons whose corners lie exactly on them, one polygon for both sides of a seam.

In: a centre, a radius, a direction. Out: exact corners and `Bow`s of 45 degrees each.

Corners are rational points of the circle, radius x ((1 - t t) / (1 + t t), 2 t / (1 + t t)) for
t = k / n (the rational parametrisation: Euclid, Elements X, lemma 1 to proposition 29), up to the
corner at 45 degrees, which is a multiple of root 2; the rest are mirror images. Two corners lie at
most 2 / n apart by angle, so the stretch between them leaves the circle of radius r by at most
r (1 - cos(1 / n)) < r / (2 n n). n is the first power of two from 16 for which that is less than
0.05 mm in an inch pattern, which is less than 0.02 mm in one in centimetres. For the raw edge,
whose radius is less than twice as large, it is less than 0.1 mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import isqrt

from quicktions import Fraction

from pieceproof.lengths import Number, square_root
from pieceproof.methods.templates import QUARTERS, Bow
from pieceproof.shapes import Point

LEAVES_AT_MOST = Fraction(5, 2540)
"""How far a stretch leaves its circle at most, in inches: 0.05 mm."""

_LEAST_STEPS = 16


def quarter(centre: Point, radius: Fraction, quarters: int) -> tuple[Point, ...]:
    """Corners of a quarter of a circle, clockwise from so many quarters after the right."""
    turn = QUARTERS[quarters % 4]
    unit = _eighth(steps_for(radius))
    ways = [turn.point(way) for way in (*unit, *((y, x) for x, y in unit[-2::-1]))]
    return tuple((centre[0] + x * radius, centre[1] + y * radius) for x, y in ways)


def bows(corners: Sequence[Point], centre: Point, radius: Number) -> tuple[Bow, Bow]:
    """The two halves of a quarter, in the order of its corners."""
    middle = corners[len(corners) // 2]
    ends = pairwise((corners[0], middle, corners[-1]))
    first, last = (Bow(start, end, centre, radius, 45) for start, end in ends)
    return first, last


def steps_for(radius: Fraction) -> int:
    """n of the module's docstring."""
    steps = _LEAST_STEPS
    while radius / (2 * steps * steps) >= LEAVES_AT_MOST:
        steps *= 2
    return steps


def _eighth(steps: int) -> list[Point]:
    """Unit directions from the right to 45 degrees; t goes up to tan 22.5 = root 2 - 1."""
    last = isqrt(2 * steps * steps) - steps
    shares = [Fraction(k, steps) for k in range(last + 1)]
    half = square_root(Fraction(1, 2))
    return [*(((1 - t * t) / (1 + t * t), 2 * t / (1 + t * t)) for t in shares), (half, half)]
