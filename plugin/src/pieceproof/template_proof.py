"""How often the blade turns round a template, found from its raw edge alone.

In: a piece and its template. Out: the passes of the blade for one piece. The raw edge is followed
corner by corner on the rectangle; nothing of the seam lines or of how they were drawn is used.
"""

from __future__ import annotations

from quicktions import Fraction

from pieceproof.lengths import Number, sign
from pieceproof.published import Piece, Template
from pieceproof.shapes import Point

_BEND = Fraction(1, 4)
"""The slope of 14 degrees: two stretches of a circle meet at 7.2 at most (``methods.arcs``)."""


def blade_passes(piece: Piece, template: Template) -> int:
    """Walk the raw edge from a corner; each way to the next one is a pass unless it is cut."""
    edge = template.cut
    count = len(edge)
    corners = [i for i in range(count) if _is_corner(template, edge[i - 1 : i] or edge[-1:], i)]
    if not corners:
        return 1
    passes = 0
    for here, ahead in zip(corners, [*corners[1:], corners[0] + count], strict=True):
        walked = [edge[i % count] for i in range(here, ahead + 1)]
        passes += not _lies_on_an_edge(piece, template, walked)
    return passes


def _is_corner(template: Template, before: tuple[Point, ...], i: int) -> bool:
    """Corners of a raw edge with no curve are all corners; a curve's own bend only a little."""
    if not template.arcs:
        return True
    ((x, y),) = before
    place, ahead = template.cut[i], template.cut[(i + 1) % len(template.cut)]
    one, other = (place[0] - x, place[1] - y), (ahead[0] - place[0], ahead[1] - place[1])
    cross = one[0] * other[1] - one[1] * other[0]
    along = one[0] * other[0] + one[1] * other[1]
    bend = -cross if sign(cross) < 0 else cross
    return sign(bend - _BEND * along) > 0


def _lies_on_an_edge(piece: Piece, template: Template, walked: list[Point]) -> bool:
    """Whether nothing of the rectangle is left beside the way."""
    widest = max(x for x, _ in template.cut)
    is_upright = widest <= max(y for _, y in template.cut)
    right, bottom = (piece.short, piece.long) if is_upright else (piece.long, piece.short)
    sides: tuple[tuple[int, Number], ...] = (
        (0, Fraction(0)),
        (0, right),
        (1, Fraction(0)),
        (1, bottom),
    )
    return any(all(point[axis] == at for point in walked) for axis, at in sides)
