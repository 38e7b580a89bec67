"""How many cuts free a piece from its rectangle along its template.

In: a piece. Out: a count, for one piece. A cut goes from corner to corner; a curve is cut in one,
with the straight stretches that go on from its ends. The template lies in a corner of the
rectangle, and a side that lies on the rectangle's edge is cut already.
"""

from __future__ import annotations

from functools import lru_cache

from pieceproof.lengths import sign
from pieceproof.published import Arc, Piece, Template
from pieceproof.shapes import Point, bounds


@lru_cache(10_000)
def cuts_around(piece: Piece) -> int:
    """The cuts along the template of one piece; 0 for a piece without one."""
    if piece.template is None:
        return 0
    corners = sum(_corners_at(piece.template, mark) for mark in _marks(piece.template))
    return max(corners, 1) - _cut_already(piece, piece.template)


def _marks(template: Template) -> list[int]:
    count = len(template.seam_lines)
    inside = {i % count for arc in template.arcs for i in range(arc.first + 1, arc.last)}
    return [i for i in range(count) if i not in inside]


def _corners_at(template: Template, mark: int) -> int:
    """Corners of the raw edge at a mark: none where it goes straight on, two at a sharp tip."""
    (ax, ay), (bx, by) = _way(template, mark - 1, mark), _way(template, mark, mark)
    turn, ahead = ax * by - ay * bx, ax * bx + ay * by
    if sign(turn) == 0 and sign(ahead) > 0:
        return 0
    long = 4 * ahead * ahead >= (ax * ax + ay * ay) * (bx * bx + by * by)
    is_tip = sign(turn) > 0 and sign(ahead) < 0 and long  # 60 degrees or less
    return 2 if is_tip and template.allowance else 1


def _way(template: Template, side: int, mark: int) -> Point:
    """The direction, clockwise, of the side of the seam lines that ends or begins at a mark."""
    count = len(template.seam_lines)
    (x, y), (to_x, to_y) = (
        template.seam_lines[side % count],
        template.seam_lines[(side + 1) % count],
    )
    arc = _arc(template, side % count)
    if arc is None:
        return to_x - x, to_y - y
    place = template.seam_lines[mark]
    across, down = place[0] - arc.centre[0], place[1] - arc.centre[1]
    is_clockwise = sign(across * (to_y - y) - down * (to_x - x)) > 0
    return (-down, across) if is_clockwise else (down, -across)


def _arc(template: Template, side: int) -> Arc | None:
    count = len(template.seam_lines)
    arcs = (a for a in template.arcs if (side - a.first) % count < a.last - a.first)
    return next(arcs, None)


def _cut_already(piece: Piece, template: Template) -> int:
    """Sides of the raw edge on the edges of the rectangle, which is the extent rounded up."""
    box = bounds([template.cut])
    sides = (piece.short, piece.long) if box.width <= box.height else (piece.long, piece.short)
    edges = (((0, sides[0]), 0), ((0, sides[1]), 1))
    ends = zip(template.cut, (*template.cut[1:], template.cut[0]), strict=True)
    return sum(
        1
        for start, end in ends
        for places, axis in edges
        if start[axis] == end[axis] and start[axis] in places
        if not (_is_on_a_curve(template, start) or _is_on_a_curve(template, end))
    )


def _is_on_a_curve(template: Template, place: Point) -> bool:
    """Whether the raw edge of an arc passes here; what goes straight on from it is part of it."""
    s = template.allowance
    for arc in template.arcs if s else ():
        across, down = place[0] - arc.centre[0], place[1] - arc.centre[1]
        reaches = (arc.radius + s, arc.radius - s)
        if across * across + down * down in [reach * reach for reach in reaches]:
            return True
    return False
