"""Tips on sewn cloth: where a piece comes to a point, and how far the next seam line is.

In: a flat thing and the seam allowance that it will be sewn with. Out: its points toward each
side. The thing is cut back to the seam lines on the other sides first, as the seams there will
hide that cloth; on the side looked at, the cloth of the allowance still lies open, and a point on
it will be cut off. It knows no drawing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.bench.table import Face, Faces, Flat, pared, turned
from pieceproof.lengths import Number
from pieceproof.shapes import Point
from pieceproof.steps import Side

Allowances = Mapping[Side, Fraction]
"""The seam allowance of each side."""


@dataclass(frozen=True)
class Spot:
    """A point of one piece toward one side.

    ``place`` is measured from the middle of the thing. ``clearance`` is from the point to the seam
    line, negative where the point lies in the allowance. A point that the thing cannot show because
    no seams meet on its cloth has the clearance of the raw edge.
    """

    fabric: str
    letter: str
    toward: Side
    place: Point
    clearance: Number


def spots(thing: Flat, allowance: Fraction, reach: Fraction) -> tuple[Spot, ...]:
    """Points within ``reach`` of a seam line; of several at one place the ones nearest to it."""
    nearest: dict[Point, list[Spot]] = {}
    for spot in (s for side in Side for s in _toward(thing, side, allowance, reach)):
        known = nearest.setdefault(spot.place, [])
        if not known or spot.clearance < known[0].clearance:
            nearest[spot.place] = [spot]
        elif spot.clearance == known[0].clearance:
            known.append(spot)
    return tuple(spot for found in nearest.values() for spot in found)


def followed(spot: Spot, thing: Flat, allowances: Allowances) -> Spot | None:
    """The same point on a thing that was sewn otherwise; None where its piece does not show.

    Of all pieces of its letter it is the one whose point is nearest to its place.
    """
    of_its_letter = (spot.fabric, spot.letter)
    own = tuple(face for face in thing.faces if (face.fabric, face.letter) == of_its_letter)
    candidates = [
        _spot(thing, spot.toward, shown, allowances)
        for shown in _shown(replace(thing, faces=own), spot.toward, allowances)
    ]
    return min(candidates, key=lambda found: _apart(found.place, spot.place), default=None)


def _toward(thing: Flat, side: Side, allowance: Fraction, reach: Fraction) -> Iterator[Spot]:
    width = thing.height if _TO_TOP[side] % 2 else thing.width
    alike = dict.fromkeys(_CLOCKWISE, allowance)
    for shown in _shown(thing, side, alike):
        nearest = min(y for _, y in shown.outline)
        xs = [x for x, y in shown.outline if y == nearest]
        between = allowance < xs[0] < width - allowance
        if len(xs) == 1 and nearest - allowance <= reach and (between or nearest >= allowance):
            yield _spot(thing, side, shown, alike)


def _shown(thing: Flat, side: Side, allowances: Allowances) -> Faces:
    """What shows with the side turned to the top, the other sides cut back to their seam lines."""
    on_top = _CLOCKWISE.index(side)
    right, bottom, left = (allowances[_CLOCKWISE[(on_top + n) % 4]] for n in (1, 2, 3))
    return pared(turned(thing, _TO_TOP[side]), left, Fraction(0), right, bottom)


def _spot(thing: Flat, side: Side, shown: Face, allowances: Allowances) -> Spot:
    """The place of a face that is nearest to the top, its leftmost if it is an edge."""
    turns = _TO_TOP[side]
    width, height = (thing.height, thing.width) if turns % 2 else (thing.width, thing.height)
    x, y = min(shown.outline, key=lambda p: (p[1], p[0]))
    place = (x - width / 2, y - height / 2)
    for _ in range(turns):
        place = (place[1], -place[0])
    return Spot(shown.fabric, shown.letter, side, place, y - allowances[side])


def _apart(first: Point, second: Point) -> Number:
    dx, dy = first[0] - second[0], first[1] - second[1]
    return dx * dx + dy * dy


_CLOCKWISE = (Side.TOP, Side.RIGHT, Side.BOTTOM, Side.LEFT)

_TO_TOP = {Side.TOP: 0, Side.LEFT: 1, Side.BOTTOM: 2, Side.RIGHT: 3}
"""Clockwise quarter turns that bring a side to the top."""
