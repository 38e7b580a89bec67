"""Blocks on point: where they lie, how large the top gets, and the triangles that fill its edges.

In: a setting whose blocks are one square size. Out: an `OnPointLayout` and the finished patches of
its triangles. What is sewn is in `sewing_on_point`.

The frame of the diagonal rows is the finished top turned an eighth to the right: there row v of
the blocks lies between (v - 1/2) F and (v + 1/2) F, column u likewise, and the tips of the blocks
touch the lines x = 0 and y = 0 before the setting floats. A place with two
odd numbers of half diagonals holds a block of a full row, one with two even numbers an alternate.
With sashes of width w all places are F + w apart, and the lines run through the middles of the
squares at the edge; the triangles between them are those of blocks without sashes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from quicktions import Fraction

from pieceproof.cells import Laid, turned
from pieceproof.lengths import Number, ceil_to, square_root
from pieceproof.model import Cell, OnPoint, Size
from pieceproof.shapes import Line, Motion, Polygon, cut, rectangle
from pieceproof.ways import UNTOLD, Share, Way, allowances, allowances_on_ruler, exactly

SIDE_TRIANGLE = "side triangle"
CORNER_TRIANGLE = "corner triangle"

ROOT = square_root(2)


@dataclass(frozen=True)
class SettingTriangle:
    """Triangles of one kind: what they are called and of what square they are cut.

    ``needed`` is the exact side of the square, ``square`` the side to cut, ``each`` how many
    triangles come out of it: 4 where it is cut twice, 2 where it is cut once. ``way`` tells how
    the side comes about.
    """

    name: str
    fabric: str
    each: int
    needed: Number
    square: Fraction
    way: Way = UNTOLD

    @property
    def size(self) -> Size:
        """Width and height of a triangle as it lies in `outline`."""
        return Size(self.square, self.square / 2 if self.each == 4 else self.square)

    def outline(self) -> Polygon:
        """A triangle as cut: a side triangle with its long side down, a corner one top left."""
        long, zero = self.square, Fraction(0)
        if self.each == 4:
            return ((zero, long / 2), (long / 2, zero), (long, long / 2))
        return ((zero, zero), (long, zero), (zero, long))


@dataclass(frozen=True)
class Diagonal:
    """A row from the lower left to the upper right; its first cell's place in the frame."""

    left: Fraction
    top: Fraction
    cells: tuple[Laid, ...]

    @property
    def height(self) -> Fraction:
        """All cells of a row are equally high."""
        return self.cells[0].size.height

    @property
    def edges(self) -> tuple[Fraction, ...]:
        """Where its cells begin, and where the last one ends."""
        return tuple(accumulate((cell.size.width for cell in self.cells), initial=self.left))


@dataclass(frozen=True)
class Sashes:
    """What lies between blocks: an upright sash, a square, and the fabric of squares at the edge.

    The squares at the edge are cut through by it, so they are cut long enough to reach beyond.
    """

    upright: Laid
    post: Laid

    @property
    def width(self) -> Fraction:
        """Finished."""
        return self.post.size.width


@dataclass(frozen=True)
class RowEnd:
    """The piece at both ends of a row of sashes: exact length and the one to cut, and its width.

    ``ways`` tell how length and width come about.
    """

    fabric: str
    needed: Number
    length: Fraction
    width: Fraction
    ways: tuple[Way, Way] = (UNTOLD, UNTOLD)


@dataclass(frozen=True)
class OnPointLayout:
    """Diagonal rows in a rectangle. Tips float ``beside`` left and right, ``above`` at the ends.

    With sashes ``strips`` are the rows between and around those of blocks, each of which goes on
    to the edge with an ``end``; the tips are then the middles of the squares at the edge.
    """

    across: int
    down: int
    block: Fraction
    rows: tuple[Diagonal, ...]
    size: Size
    beside: Number
    above: Number
    sides: SettingTriangle
    corners: SettingTriangle
    strips: tuple[Diagonal, ...] = ()
    end: RowEnd | None = None

    @property
    def triangles(self) -> tuple[SettingTriangle, ...]:
        """The kinds of setting triangles that there are; a single block has corners only."""
        alone = self.across == self.down == 1
        return (self.corners,) if alone else (self.sides, self.corners)

    def into_top(self) -> Motion:
        """From the frame of the rows to the finished top."""
        half = ROOT / 2
        return Motion(half, half, -half, half, self.beside, self.above)

    def triangle_at(self, row: int, at_end: bool) -> tuple[SettingTriangle, int]:
        """The triangle at an end of a row counted from 1, and its turn as it lies in the top."""
        corner_row = self.across if at_end else self.down
        if row == corner_row:
            return self.corners, 1 if at_end else 3
        if at_end:
            return self.sides, 2 if row < corner_row else 3
        return self.sides, 1 if row < corner_row else 0


def lay_on_point(
    setting: OnPoint,
    block: Fraction,
    seam: Fraction,
    step: Fraction,
    sashes: Sashes | None = None,
) -> OnPointLayout:
    """The layout around blocks of one finished side. The caller checks that the size is enough."""
    across, down = counts(setting)
    pitch = block + (sashes.width if sashes else 0)
    tips = tips_size(setting, pitch)
    size = setting.trim_to or least_size(setting, pitch, step)
    beside, above = (size.width - tips[0]) / 2, (size.height - tips[1]) / 2
    sides, corners = _triangles(setting, block, seam, step, max(beside, above))
    rows = tuple(_diagonals(setting, block, sashes))
    laid = OnPointLayout(across, down, block, rows, size, beside, above, sides, corners)
    if sashes is None:
        return laid
    end = _row_end(sashes, seam, step, max(beside, above))
    return replace(laid, strips=tuple(_strips(rows, sashes)), end=end)


def counts(setting: OnPoint) -> tuple[int, int]:
    """Blocks in a full row, and full rows."""
    return setting.across or len(setting.rows[0]), setting.down or len(setting.rows)


def tips_size(setting: OnPoint, pitch: Fraction) -> tuple[Number, Number]:
    """From tip to tip: a diagonal, the side times root 2, for each block and its sash."""
    across, down = counts(setting)
    return across * pitch * ROOT, down * pitch * ROOT


def least_size(setting: OnPoint, pitch: Fraction, step: Fraction) -> Size:
    """The next size that a ruler shows around the tips and the float on both sides."""
    width, height = tips_size(setting, pitch)
    around = 2 * setting.float
    return Size(ceil_to(width + around, step), ceil_to(height + around, step))


def cells_used(setting: OnPoint) -> Iterator[Cell]:
    """The cells of the motifs that come into the top at all."""
    for _, _, row in _lattice(setting):
        yield from row


def _triangles(
    setting: OnPoint, block: Fraction, seam: Fraction, step: Fraction, beyond: Number
) -> tuple[SettingTriangle, SettingTriangle]:
    """Squares for triangles that reach one seam and ``beyond`` over the tips.

    Around a finished right triangle a seam s adds s (2 + root 2) to the short sides and
    2 s (1 + root 2) to the long one. Handbooks add 7/8 and 1 1/4 for a seam of 1/4 and round up to
    the next eighth (1.414 F + 1 1/4, F / 1.414 + 7/8); so is it done here. Only where the float
    needs more than this rounding gives, the next step is taken.
    """
    side, corner = 2 * seam * (1 + ROOT), seam * (2 + ROOT)
    corner_fabric = setting.corners or setting.sides
    return (
        _triangle(SIDE_TRIANGLE, setting.sides, 4, (block * ROOT, side), (seam, step), beyond),
        _triangle(
            CORNER_TRIANGLE, corner_fabric, 2, (block * ROOT / 2, corner), (seam, step), beyond
        ),
    )


def _triangle(
    name: str,
    fabric: str,
    each: int,
    parts: tuple[Number, Number],
    seam_and_step: tuple[Fraction, Fraction],
    beyond: Number,
) -> SettingTriangle:
    (finished, addition), (seam, step) = parts, seam_and_step
    needed = finished + addition + 2 * beyond
    by_handbook = ceil_to(finished + ceil_to(addition, step), step)
    square = max(by_handbook, ceil_to(needed, step))
    long = exactly("finished long side" if each == 4 else "finished short side", finished)
    seams, room = allowances_on_ruler(addition, seam, step), 2 * beyond
    told = Share("room beyond the tips, which the rounding leaves", room, Fraction(0))
    if square > by_handbook:
        seams, told = exactly(seams.words, addition), exactly("room beyond the tips", room)
    way = Way((long, seams, told) if room else (long, seams))
    return SettingTriangle(name, fabric, each, needed, square, way)


def _lattice(setting: OnPoint) -> Iterator[tuple[int, int, tuple[Cell, ...]]]:
    """Rows of cells from the top left, each with its number and the column of its first cell."""
    across, down = counts(setting)
    for row in range(1, across + down):
        first = max(1, 2 * row - 2 * down + 1)
        last = min(2 * across - 1, 2 * row - 1)
        places = range(first, last + 1)
        yield row, first - row, tuple(_cell(setting, x, 2 * row - x) for x in places)


def _cell(setting: OnPoint, x: int, y: int) -> Cell:
    """The cell at the x-th and y-th half diagonal."""
    motif = setting.rows if x % 2 else setting.alternates or setting.rows
    row = motif[(y - 1) // 2 % len(motif)]
    return row[(x - 1) // 2 % len(row)]


def _diagonals(setting: OnPoint, block: Fraction, sashes: Sashes | None) -> Iterator[Diagonal]:
    square, half = Size(block, block), Fraction(1, 2)
    wide = sashes.width if sashes else Fraction(0)
    for row, column, cells in _lattice(setting):
        laid = [Laid(c.name, c.turn, c.mirrored, square, "plain block") for c in cells]
        if sashes:
            laid = [sashes.upright, *(part for cell in laid for part in (cell, sashes.upright))]
        pitch = block + wide
        yield Diagonal((column - half) * pitch - wide / 2, row * pitch - block / 2, tuple(laid))


def _strips(rows: Sequence[Diagonal], sashes: Sashes) -> Iterator[Diagonal]:
    """A row of sashes above every row of blocks and below the last, as long as its neighbours."""
    level, wide = replace(turned(sashes.upright, 1), role="level sash"), sashes.width
    pitch = level.size.width + wide
    for above, below in pairwise((None, *rows, None)):
        near = [row for row in (above, below) if row is not None]
        left = min(row.left for row in near) + wide
        right = max(row.edges[-1] for row in near)
        count = int((right - left) / pitch)
        cells = [level, *(part for _ in range(count - 1) for part in (sashes.post, level))]
        top = below.top - wide if below else near[0].top + near[0].height
        yield Diagonal(left, top, tuple(cells))


def _row_end(sashes: Sashes, seam: Fraction, step: Fraction, beyond: Number) -> RowEnd:
    """Seam, width, and on to where its shorter side meets the raw edge: (beyond + s) root 2."""
    wide, seams = exactly("width of the sashes", sashes.width), seam * (1 + ROOT)
    room = (exactly("room beyond the tips, on the diagonal", beyond * ROOT),) if beyond else ()
    along = Way((wide, allowances(seams, seam), *room))
    across = Way((wide, allowances(2 * seam, seam)))
    length, width = along.on_ruler(step), sashes.width + 2 * seam
    return RowEnd(sashes.post.name, along.exact, length, width, (along, across))


def edge_patches(layout: OnPointLayout) -> Iterator[tuple[str, Polygon]]:
    """Fabric and finished outline of every setting triangle, and of the ends of sashes."""
    top = rectangle(layout.size.width, layout.size.height)
    outer = layout.strips or layout.rows
    yield layout.corners.fabric, cut(top, _below(layout, outer[0].top).flipped())
    for number, row in enumerate(layout.rows, start=1):
        ends = zip((False, True), _beyond(layout, row, top), strict=True)
        for at_end, outline in ends:
            yield layout.triangle_at(number, at_end)[0].fabric, outline
    for strip in layout.strips if layout.end else ():
        for outline in _beyond(layout, strip, top):
            yield layout.end.fabric if layout.end else "", outline
    yield layout.corners.fabric, cut(top, _below(layout, outer[-1].top + outer[-1].height))


def _beyond(layout: OnPointLayout, row: Diagonal, top: Polygon) -> tuple[Polygon, Polygon]:
    """What of the top lies before a row's first cell and behind its last."""
    band = cut(top, _below(layout, row.top))
    band = cut(band, _below(layout, row.top + row.height).flipped())
    before = cut(band, _right_of(layout, row.edges[0]).flipped())
    return before, cut(band, _right_of(layout, row.edges[-1]))


def _below(layout: OnPointLayout, place: Number) -> Line:
    """A level line of the frame as it lies in the top; its positive side is toward later rows."""
    one = Fraction(1)
    return Line(one, one, place * ROOT + layout.beside + layout.above)


def _right_of(layout: OnPointLayout, place: Number) -> Line:
    one = Fraction(1)
    return Line(one, -one, place * ROOT + layout.beside - layout.above)
