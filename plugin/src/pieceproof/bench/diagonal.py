"""Diagonal rows: cells and setting triangles sewn on point, and the uneven edge trimmed.

In: a step and flat things by name. Out: one flat thing as it lies in the top. Rows are sewn in a
frame that is turned an eighth to the right, where they lie level and their cells upright.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate

from quicktions import Fraction

from pieceproof.bench.joining import check_pressed
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import (
    Face,
    Faces,
    Flat,
    carried,
    cut_faces,
    extent,
    flat,
    is_rectangle,
    moved,
    pared,
    turned,
)
from pieceproof.bench.words import excess, length, size, size_excess
from pieceproof.lengths import Number, square_root
from pieceproof.shapes import Box, Line, Motion, Point
from pieceproof.steps import AssembleOnPoint, DiagonalRow, Placed, Side, TrimEven

TRIANGLES = "setting triangles"
"""All kinds of them together: which one reaches just far enough depends on the counts."""

_HALF_ROOT = square_root(Fraction(1, 2))
_INTO_FRAME = Motion(_HALF_ROOT, -_HALF_ROOT, _HALF_ROOT, _HALF_ROOT)
_OUT_OF_FRAME = Motion(_HALF_ROOT, _HALF_ROOT, -_HALF_ROOT, _HALF_ROOT)


@dataclass(frozen=True)
class _Row:
    """Cells sewn together in the frame: what shows inside their seams, and where the seams are.

    ``seams`` are the places of all upright seams, triangles' included; ``top`` and ``bottom`` those
    of the seams to the rows above and below. A row without triangles keeps its raw ends.
    """

    faces: Faces
    seams: tuple[Number, ...]
    top: Number
    bottom: Number

    @property
    def box(self) -> Box:
        return Box(self.seams[0], self.top, self.seams[-1], self.bottom)


def assembled_on_point(step: AssembleOnPoint, sources: Mapping[str, Flat]) -> Flat:
    """All rows and both corners sewn together."""
    return flat(tuple(face for part in parts_on_point(step, sources) for face in part))


def parts_on_point(step: AssembleOnPoint, sources: Mapping[str, Flat]) -> Sequence[Faces]:
    """What shows of the top left corner, each row and the bottom right corner, in their places."""
    if not step.rows or len(step.row_press) != len(step.rows):
        raise CannotSew(f"{len(step.rows)} rows to press", f"{len(step.row_press)} directions")
    for row, press in zip(step.rows, step.row_press, strict=True):
        check_pressed(press, len(row.cells) + 1)
    check_pressed(step.between, len(step.rows) - 1)
    if step.rows[0].start != 0:
        raise CannotSew("a first row that starts where it starts", f"{step.rows[0].start}")
    a = step.allowance
    rows: list[_Row] = []
    for row in step.rows:
        cells = [turned(sources[cell.source], cell.turn) for cell in row.cells]
        joined = _cells_joined(cells, a) if row.first else _raw_ended(cells, a)
        rows.append(_placed(joined, row.start, rows))
    parts = (
        _triangle(step.top_left, Side.TOP, rows[0].box, sources, a),
        *(
            (*_ends(row, sewn, sources, a), *sewn.faces)
            for row, sewn in zip(step.rows, rows, strict=True)
        ),
        _triangle(step.bottom_right, Side.BOTTOM, rows[-1].box, sources, a),
    )
    return [carried(part, _OUT_OF_FRAME) for part in parts]


def spare_beyond(
    step: AssembleOnPoint, trim: TrimEven, sources: Mapping[str, Flat]
) -> Mapping[str, Number]:
    """By how much each kind of piece at the edge reaches over the size to trim to, at the least.

    Of a triangle the outer side counts, of the raw end of a row its shorter side.
    """
    parts = parts_on_point(step, sources)
    box = extent(face for part in parts for face in part)
    wide, tall = (box.width - trim.width) / 2, (box.height - trim.height) / 2
    window = Box(box.left + wide, box.top + tall, box.right - wide, box.bottom - tall)
    found: dict[str, Number] = {}
    for source, over in _at_the_edge(step, parts, window):
        found[source] = min(over, found.get(source, over))
    return found


def _at_the_edge(
    step: AssembleOnPoint, parts: Sequence[Faces], window: Box
) -> Iterator[tuple[str, Number]]:
    """How far every triangle and every raw end reaches over a window, by what it is made of."""
    yield TRIANGLES, _triangle_over(parts[0][0], window)
    for row, part in zip(step.rows, parts[1:-1], strict=True):
        if row.first is None or row.last is None:
            yield row.cells[0].source, _raw_end_over(part[0], -1, window)
            yield row.cells[-1].source, _raw_end_over(part[-1], 1, window)
        else:
            yield TRIANGLES, _triangle_over(part[0], window)
            yield TRIANGLES, _triangle_over(part[1], window)
    yield TRIANGLES, _triangle_over(parts[-1][0], window)


def _triangle_over(face: Face, window: Box) -> Number:
    """Its outer sides are those that reach the window's."""
    places = [_over(place, window) for place in face.outline]
    reaches: list[Number] = [max(place[side] for place in places) for side in range(4)]
    return min((reach for reach in reaches if reach >= 0), default=max(reaches))


def _raw_end_over(face: Face, way: int, window: Box) -> Number:
    """The raw end is the edge furthest along the row, which runs up to the right in the top."""
    far = max(way * (x - y) for x, y in face.outline)
    ends = [_over(p, window) for p in face.outline if way * (p[0] - p[1]) == far]
    reaches: list[Number] = [min(end[side] for end in ends) for side in range(4)]
    return max(reaches)


def _over(place: Point, window: Box) -> tuple[Number, ...]:
    """How far a place lies beyond each side of a window; less than 0 inside."""
    x, y = place
    return (window.left - x, window.top - y, x - window.right, y - window.bottom)


def trimmed_even(thing: Flat, step: TrimEven) -> Flat:
    """A thing cut to a rectangle about its middle."""
    off = (step.off_sides, step.off_ends)
    before = (step.width + 2 * step.off_sides, step.height + 2 * step.off_ends)
    if min(*off, step.least_sides, step.least_ends) < 0:
        raise CannotSew("something to trim on every side", "less than nothing to trim")
    if (thing.width, thing.height) != before:
        raise CannotSew(
            f"{size(*before)} before trimming",
            size(thing.width, thing.height),
            size_excess((thing.width, thing.height), before),
        )
    return flat(pared(thing, off[0], off[1], off[0], off[1]))


def _cells_joined(cells: Sequence[Flat], a: Fraction) -> _Row:
    """Cells side by side with their top raw edges at 0, the first seam at one allowance."""
    if not cells:
        raise CannotSew("cells in every row", "an empty row")
    for cell in cells:
        if not is_rectangle(cell):
            raise CannotSew("cells that are rectangles", "another outline")
        if cell.height != cells[0].height:
            by = excess(cell.height, cells[0].height, "too long", "too short")
            raise CannotSew(f"cells of one height, {length(cells[0].height)}", by)
    if not 0 < 2 * a < min(min(cell.width, cell.height) for cell in cells):
        raise CannotSew("seam allowances narrower than the cloth", length(a))
    first: Number = a
    seams = tuple(accumulate((cell.width - 2 * a for cell in cells), initial=first))
    faces = [
        face
        for cell, seam in zip(cells, seams, strict=False)
        for face in moved(pared(cell, a, a, a, a), seam - a, Fraction(0))
    ]
    return _Row(tuple(faces), seams, a, cells[0].height - a)


def _raw_ended(cells: Sequence[Flat], a: Fraction) -> _Row:
    """Cells side by side whose outer ends are not sewn to anything."""
    if len(cells) < 3:
        raise CannotSew("a row of three cells at least", f"{len(cells)}")
    inner = _cells_joined(cells, a)
    first, last = cells[0], cells[-1]
    zero = Fraction(0)
    left = moved(pared(first, zero, a, a, a), zero, zero)
    right = moved(pared(last, a, a, zero, a), inner.seams[-2] - a, zero)
    between = cut_faces(inner.faces, Line(Fraction(1), zero, inner.seams[1]))
    between = cut_faces(between, Line(Fraction(-1), zero, -inner.seams[-2]))
    return _Row((*left, *between, *right), inner.seams[1:-1], inner.top, inner.bottom)


def _placed(row: _Row, start: int, above: Sequence[_Row]) -> _Row:
    """The row below the ones above it, its seam on that seam of the last one that it meets."""
    if not above:
        return row
    last = above[-1]
    theirs, mine = max(start, 0), max(-start, 0)
    if theirs >= len(last.seams) or mine >= len(row.seams):
        raise CannotSew("a row that lies below the one above", f"a start of {start}")
    dx, dy = last.seams[theirs] - row.seams[mine], last.bottom - row.top
    seams = tuple(seam + dx for seam in row.seams)
    return _Row(moved(row.faces, dx, dy), seams, row.top + dy, row.bottom + dy)


def _ends(row: DiagonalRow, sewn: _Row, sources: Mapping[str, Flat], a: Fraction) -> Faces:
    if row.first is None or row.last is None:
        return ()
    return (
        *_triangle(row.first, Side.LEFT, sewn.box, sources, a),
        *_triangle(row.last, Side.RIGHT, sewn.box, sources, a),
    )


def _triangle(
    placed: Placed, side: Side, box: Box, sources: Mapping[str, Flat], a: Fraction
) -> Faces:
    """A triangle fitted to one side of a row's seam lines, cut back to the seams around it."""
    cloth = turned(sources[placed.source], placed.turn)
    faces = flat(carried(cloth.faces, _INTO_FRAME)).faces
    upright = side in (Side.LEFT, Side.RIGHT)
    low, high = (box.top, box.bottom) if upright else (box.left, box.right)
    along = _fit(faces, side, low - a, high + a)
    edge, seam = _facing(extent(faces), side), getattr(box, side.value)
    across = seam - edge + (a if side in (Side.LEFT, Side.TOP) else -a)
    lying = moved(faces, *((across, along) if upright else (along, across)))
    for line in _bounds(side, box):
        lying = cut_faces(lying, line)
    return lying


def _facing(box: Box, side: Side) -> Number:
    """Where the edge that faces the row is."""
    return {
        Side.LEFT: box.right,
        Side.RIGHT: box.left,
        Side.TOP: box.bottom,
        Side.BOTTOM: box.top,
    }[side]


def _fit(faces: Faces, side: Side, low: Number, high: Number) -> Number:
    """How far to move a triangle along the row's edge, which runs from ``low`` to ``high``."""
    if len(faces) != 1:
        raise CannotSew("a triangle of one piece", f"{len(faces)} patches")
    across, along = (0, 1) if side in (Side.LEFT, Side.RIGHT) else (1, 0)
    edge = _facing(extent(faces), side)
    ends = sorted(
        (p[along], _is_square(faces[0], i))
        for i, p in enumerate(faces[0].outline)
        if p[across] == edge
    )
    if len(ends) != 2:
        raise CannotSew("a triangle with an edge to the row", "one with a tip to the row")
    (start, square_start), (end, square_end) = ends
    if square_start and square_end:
        raise CannotSew("a triangle", "a rectangle")
    if square_start:
        return low - start
    return high - end if square_end else (low + high - start - end) / 2


def _is_square(face: Face, corner: int) -> bool:
    outline = face.outline
    here, before, after = outline[corner], outline[corner - 1], outline[(corner + 1) % len(outline)]
    return _dot(here, before, after) == 0


def _dot(here: Point, before: Point, after: Point) -> Number:
    return (before[0] - here[0]) * (after[0] - here[0]) + (before[1] - here[1]) * (
        after[1] - here[1]
    )


def _bounds(side: Side, box: Box) -> Sequence[Line]:
    """The seam lines around a triangle; what shows of it lies on their positive sides."""
    one, zero = Fraction(1), Fraction(0)
    if side is Side.TOP:
        return (Line(zero, -one, -box.top),)
    if side is Side.BOTTOM:
        return (Line(zero, one, box.bottom),)
    ends = Line(-one, zero, -box.left) if side is Side.LEFT else Line(one, zero, box.right)
    return (ends, Line(zero, one, box.top), Line(zero, -one, -box.bottom))
