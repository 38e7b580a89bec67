"""Templates from finished patches: the raw edge around the seam lines, one shape for all alike.

In: finished patches as they lie in a unit. Out: a `Template` for each, the same for patches that
are the same when turned, and the number of the mark at each of their corners.

A raw edge lies one allowance s outside its seam line. Where two edges meet with unit outward
directions n and m, the raw edges meet at s (n + m) / (1 + n.m) from the corner of the seam lines.
A tip of 60 degrees or less is cut off where the raw edges meet the seam lines drawn on, s / sin of
its angle away, which is all that the seams need: common practice for sewing by machine.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.published import Arc, Template
from pieceproof.shapes import Motion, Point, Polygon, bounds, shift, tidy

_ZERO, _ONE = Fraction(0), Fraction(1)


@dataclass(frozen=True)
class Bow:
    """A part of a circle in an outline, clockwise along the patch from ``start`` to ``end``."""

    start: Point
    end: Point
    centre: Point
    radius: Number
    degrees: int


@dataclass(frozen=True)
class Shaped:
    """A finished patch as it lies in its unit. Its outline goes clockwise.

    A corner may lie in a straight side, where another patch has a corner.
    """

    name: str
    fabric: str
    outline: Polygon
    bows: tuple[Bow, ...] = ()


@dataclass(frozen=True)
class Fitted:
    """A patch's template, and the number of the mark at each corner that has one."""

    template: Template
    marks: Mapping[int, int]


def turn_by(cos: Number, sin: Number) -> Motion:
    """A clockwise turn about the origin."""
    return Motion(cos, -sin, sin, cos)


QUARTERS = tuple(turn_by(Fraction(c), Fraction(s)) for c, s in ((1, 0), (0, 1), (-1, 0), (0, -1)))
AS_IT_LIES = QUARTERS[:1]


def fit_templates(
    patches: Sequence[Shaped], allowance: Fraction, turns: Sequence[Motion], edge: Polygon
) -> Mapping[str, Fitted]:
    """A template for each patch by its name.

    Patches with a side on the unit's ``edge``, which is a rectangle or (), keep that side on the
    straight grain; all others may be turned by any of ``turns`` to share a template.
    """
    fitted: dict[str, Fitted] = {}
    for patch in sorted(patches, key=lambda p: not _has_side_on(p.outline, edge)):
        ways = QUARTERS if _has_side_on(patch.outline, edge) else turns
        choices = [_laid(patch, allowance, way) for way in (ways if len(turns) > 1 else turns)]
        known = {found.template for found in fitted.values()}
        fitted[patch.name] = next(
            (choice for choice in choices if choice.template in known),
            min(choices, key=lambda choice: _rank(choice.template)),
        )
    return fitted


def _has_side_on(outline: Polygon, edge: Polygon) -> bool:
    if not edge:
        return False
    box = bounds([edge])
    sides = zip(outline, (*outline[1:], outline[0]), strict=True)
    return any(
        (p[0] == q[0] and p[0] in (box.left, box.right))
        or (p[1] == q[1] and p[1] in (box.top, box.bottom))
        for p, q in sides
    )


def _rank(template: Template) -> tuple[bool, Polygon]:
    """The short side across comes first, then whichever; the same for the same shapes."""
    box = bounds([template.cut])
    return box.width > box.height, template.cut


def _laid(patch: Shaped, allowance: Fraction, turn: Motion) -> Fitted:
    """The template of a patch turned, from its topmost mark on, its extent at the origin."""
    outline = tuple(turn.point(p) for p in patch.outline)
    bows = tuple(
        replace(b, start=turn.point(b.start), end=turn.point(b.end), centre=turn.point(b.centre))
        for b in patch.bows
    )
    arcs = [_arc(outline, bow) for bow in bows]
    marks = [i for i in range(len(outline)) if not any(_is_inside(i, a, outline) for a in arcs)]
    first = min(marks, key=lambda i: (outline[i][1], outline[i][0]))
    outline = outline[first:] + outline[:first]
    arcs = sorted((_arc(outline, bow) for bow in bows), key=lambda arc: arc.first)
    raw = raw_edge(outline, arcs, allowance)
    box = bounds([raw])
    home = shift(-box.left, -box.top)
    template = Template(
        home.polygon(raw),
        home.polygon(outline),
        allowance,
        tuple(replace(arc, centre=home.point(arc.centre)) for arc in arcs),
    )
    order = sorted((i - first) % len(outline) for i in marks)
    numbers = {(i + first) % len(outline): number for number, i in enumerate(order, start=1)}
    return Fitted(template, numbers)


def _arc(outline: Polygon, bow: Bow) -> Arc:
    first, last = outline.index(bow.start), outline.index(bow.end)
    if last <= first:
        last += len(outline)
    return Arc(first, last, bow.centre, bow.radius, bow.degrees)


def _is_inside(corner: int, arc: Arc, outline: Polygon) -> bool:
    return 0 < (corner - arc.first) % len(outline) < arc.last - arc.first


def raw_edge(outline: Polygon, arcs: Sequence[Arc], allowance: Fraction) -> Polygon:
    """The cut outline around seam lines; where an arc ends it goes straight on."""
    corners: list[Point] = []
    for i, place in enumerate(outline):
        before = (i - 1) % len(outline)
        n, m = (_outward(outline, arcs, edge, i) for edge in (before, i))
        corners += [_beside(place, n, allowance)] if _arc_at(arcs, before, outline) else []
        corners += _raw_corner(place, n, m, allowance)
        corners += [_beside(place, m, allowance)] if _arc_at(arcs, i, outline) else []
    start = tidy(corners)
    first = min(range(len(start)), key=lambda i: (start[i][1], start[i][0]))
    return start[first:] + start[:first]


def _raw_corner(place: Point, n: Point, m: Point, s: Fraction) -> Sequence[Point]:
    cosine, sine = n[0] * m[0] + n[1] * m[1], n[0] * m[1] - n[1] * m[0]
    if sign(sine) > 0 and cosine <= Fraction(-1, 2):
        reach = s / sine
        return ((place[0] + m[1] * reach, place[1] - m[0] * reach),
                (place[0] - n[1] * reach, place[1] + n[0] * reach))  # fmt: skip
    share = s / (1 + cosine)
    return ((place[0] + (n[0] + m[0]) * share, place[1] + (n[1] + m[1]) * share),)


def _arc_at(arcs: Sequence[Arc], edge: int, outline: Polygon) -> Arc | None:
    for arc in arcs:
        if (edge - arc.first) % len(outline) < arc.last - arc.first:
            return arc
    return None


def _outward(outline: Polygon, arcs: Sequence[Arc], edge: int, corner: int) -> Point:
    """The unit direction square to an edge, away from the patch; from or to an arc's centre."""
    (x, y), (to_x, to_y) = outline[edge], outline[(edge + 1) % len(outline)]
    arc = _arc_at(arcs, edge, outline)
    if arc is None:
        dx, dy = to_x - x, to_y - y
        long = length_of((dx, dy))
        return (dy / long, -dx / long)
    bulges = (to_x - x) * (arc.centre[1] - y) > (to_y - y) * (arc.centre[0] - x)
    way = _ONE / arc.radius if bulges else -_ONE / arc.radius
    place = outline[corner]
    return ((place[0] - arc.centre[0]) * way, (place[1] - arc.centre[1]) * way)


def _beside(place: Point, way: Point, distance: Fraction) -> Point:
    return (place[0] + way[0] * distance, place[1] + way[1] * distance)


def length_of(way: Point) -> Number:
    """The length of a straight line whose square, or whose steepness squared, is rational."""
    dx, dy = way
    square = dx * dx + dy * dy
    if not isinstance(square, Surd):
        return square_root(square)
    flat = dy if dx == _ZERO else dx
    ratio = square / (flat * flat)
    assert not isinstance(ratio, Surd)
    return (flat if sign(flat) > 0 else -flat) * square_root(ratio)
