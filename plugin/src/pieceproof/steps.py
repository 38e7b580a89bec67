"""The sewing steps of a pattern as plain data: what the page says and what the bench sews.

Each step refers to things on the table by name and to places on them as a sewist would: a
side, a corner, a diagonal, a seam allowance. A step never gives a coordinate that a ruler laid on
the cloth would not give. Directions are those of the thing as it lies face up in its drawing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum
from typing import TypeAlias, TypeVar

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.shapes import Polygon, mirror_left_right


class Side(Enum):
    """A side of a rectangle."""

    LEFT = "left"
    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"


class Corner(Enum):
    """A corner of a rectangle."""

    TOP_LEFT = "top left"
    TOP_RIGHT = "top right"
    BOTTOM_RIGHT = "bottom right"
    BOTTOM_LEFT = "bottom left"


class Slope(Enum):
    """A diagonal of a rectangle, by the way it runs."""

    RISING = "bottom left to top right"
    FALLING = "top left to bottom right"


class Way(Enum):
    """How a line through the middle runs."""

    UPRIGHT = "upright"
    LEVEL = "level"


class Meeting(Enum):
    """What meets where two edges are pinned together: their middles, or their seam points.

    A seam point lies one allowance inside the edge that is sewn and one inside the next edge: there
    the seam line meets the next one. Both ends have one, and they are marked with a ruler.
    """

    MIDDLES = "middles"
    SEAM_POINTS = "seam points"


class Press(Enum):
    """Where the seam allowances go: with the piece just sewn on, against it, or parted."""

    ONTO_ADDED = "toward the piece just added"
    ONTO_BASE = "away from the piece just added"
    OPEN = "open"


@dataclass(frozen=True)
class Diagonal:
    """A line along a diagonal of the *upper* layer's extent, moved sideways by ``offset``.

    A positive offset moves the line toward the top left (rising) or top right (falling) corner;
    it is measured square to the line. A single layer is its own upper layer.
    """

    slope: Slope
    offset: Fraction


@dataclass(frozen=True)
class Edge:
    """A line along a side of the lower layer's extent, ``inset`` inside its raw edge."""

    side: Side
    inset: Fraction


@dataclass(frozen=True)
class Middle:
    """A line through the middle of the lower layer's extent."""

    way: Way


SeamLine: TypeAlias = Diagonal | Edge | Middle


@dataclass(frozen=True)
class Take:
    """Put one piece (by letter) or one finished make (by name) on the table as ``item``.

    ``turn`` counts clockwise quarter turns from the way the piece is listed (short side across)
    or the make is drawn.
    """

    item: str
    source: str
    turn: int = 0


@dataclass(frozen=True)
class Layer:
    """Lay ``upper`` on ``lower``, right sides together, with this corner and raw edges even.

    ``upper`` is turned over as the page of a book: what was its left lies on the right, its top
    stays at the top. Then its corner named ``corner``, as it lies now, meets the same corner of
    ``lower``. For an upper of one rectangle of one fabric the turning over makes no difference;
    a sewn one shows its mirror image: a seam that fell runs rising. To turn it over top to
    bottom instead, turn it by two quarters first. The layers go on as one under the name of
    ``lower``. More than one thing may be laid on the same lower layer before anything is sewn;
    where they overlap, the one laid first shows once they are opened.
    """

    lower: str
    upper: str
    corner: Corner


@dataclass(frozen=True)
class Sew:
    """Sew through the layers along a line."""

    item: str
    line: SeamLine


@dataclass(frozen=True)
class Unpick:
    """Take out the stray stitches beyond the seam that faces a corner or side.

    They belong to other lines sewn before the thing was cut and lie in the allowance of its seam.
    """

    item: str
    toward: Corner | Side


@dataclass(frozen=True)
class CutApart:
    """Cut the layers along a line into two things.

    ``first`` is the part toward the top (then left) of the line, ``second`` the other one: for a
    rising diagonal the top left part is first, for a falling one the top right part. A part
    named "" is an offcut and leaves the table. A part of two layers that is kept must have a
    seam in it. Parts of a stack are not turned or moved until they are opened.
    """

    item: str
    line: SeamLine
    first: str
    second: str


@dataclass(frozen=True)
class Open:
    """Fold the upper layer over its one seam toward a corner or side, and press.

    Both layers keep what lies on the side of the seam away from ``toward``; what lies beyond is
    the seam allowance, or a corner left in under the fold, and is hidden from now on. A side is
    named for a seam along an edge, a corner for a seam along a diagonal.
    """

    item: str
    toward: Corner | Side
    press: Press


@dataclass(frozen=True)
class Turn:
    """Turn a thing clockwise by quarters."""

    item: str
    turn: int


@dataclass(frozen=True)
class TurnEighths:
    """Turn a flat thing clockwise by eighths, such as one that lies on point."""

    item: str
    eighths: int


@dataclass(frozen=True)
class TrimTips:
    """Cut along the straight edge that faces a side or corner, across the whole flat thing.

    What sticks out beyond that edge, such as the tips of triangles sewn on, falls away.
    """

    item: str
    edge: Side | Corner


@dataclass(frozen=True)
class TrimLike:
    """Trim a flat thing to the size of another one on the table, this much off each side.

    As with `Trim`, nothing would have to be taken off pieces of the exact needed sizes.
    """

    item: str
    like: str
    off_left: Number
    off_top: Number
    off_right: Number
    off_bottom: Number


@dataclass(frozen=True)
class Trim:
    """Trim a flat thing to width x height, taking exactly this much off each side.

    The amounts belong to the published cut sizes; cut to the exact needed sizes, the thing would
    have nothing to trim.
    """

    item: str
    width: Fraction
    height: Fraction
    off_left: Number
    off_top: Number
    off_right: Number
    off_bottom: Number


@dataclass(frozen=True)
class Join:
    """Sew ``added`` to one side of ``item``, edges even along the whole side, and press."""

    item: str
    added: str
    side: Side
    allowance: Fraction
    press: Press


@dataclass(frozen=True)
class JoinEdges:
    """Sew an edge of ``added`` to an edge of ``item``, right sides together, open and press.

    An edge is named for the side or corner it faces: of all straight edges of the thing as it
    lies, the one whose outward direction is nearest, the outermost of several alike. ``item``
    stays as it lies and ``added`` is turned to fit. Nothing may stick out beyond either edge.
    """

    item: str
    added: str
    edge: Side | Corner
    added_edge: Side | Corner
    meeting: Meeting
    allowance: Fraction
    press: Press


@dataclass(frozen=True)
class JoinMitred:
    """Sew four strips round a flat rectangle and mitre their corners.

    Each strip is laid on its side of ``item`` middle to middle and reaches past both raw edges
    there, by ``beyond_sides`` on the left and right and ``beyond_ends`` at the top and bottom. The
    seams stop at the seam corners, one allowance from the raw edges, and are pressed by ``press``.
    Then each corner is folded so that two strips lie on each other, sewn from the seam corner to
    their outer edges on the line that halves the corner, trimmed to the allowance and pressed open.
    """

    item: str
    left: str
    top: str
    right: str
    bottom: str
    beyond_sides: Fraction
    beyond_ends: Fraction
    allowance: Fraction
    press: Press


@dataclass(frozen=True)
class Placed:
    """One cell of an assembly: a piece (letter) or a make (name), and its quarter turns."""

    source: str
    turn: int


@dataclass(frozen=True)
class Assemble:
    """Join cells to rows from the left, then rows from the top, into ``item``.

    ``row_press`` tells for each row where its seams go, ``between`` where those between rows go, in
    the words of `seam_ways`. A ``between`` of `SPUN` is for two rows of two: the seam goes round
    with those that it crosses, up and down on either side of the middle, away from them.
    """

    item: str
    rows: tuple[tuple[Placed, ...], ...]
    allowance: Fraction
    row_press: tuple[str, ...]
    between: str


@dataclass(frozen=True)
class Yield:
    """These things are finished makes, as they lie; or the make's extra of the name ``extra``."""

    items: tuple[str, ...]
    extra: str = ""


# Cross-cutting, part seams, foundations.


class Guide(Enum):
    """How a sewist finds the seam on a foundation."""

    LINE = "on the printed line"
    EDGE = "along the raw edge of the piece before"


@dataclass(frozen=True)
class CrossCut:
    """Square up a flat thing's end at ``side``, then cut ``count`` segments, each ``width`` wide.

    The segments are named after ``item`` with their numbers: ``set 1``, ``set 2``. They lie as
    the thing lay. What is left, the squared-off end included, is waste.
    """

    item: str
    side: Side
    width: Fraction
    count: int


@dataclass(frozen=True)
class JoinPart:
    """Sew the first half of a seam: ``added`` to one side of ``item``, ends even at ``start``.

    ``added`` is longer than that side and hangs over its other end. The seam runs from ``start``
    to the middle of the side of ``item``; the rest is left open, and ``added`` is folded out of
    the way of what is sewn to that end. The two go on as ``item``.
    """

    item: str
    added: str
    side: Side
    start: Side
    allowance: Fraction
    press: Press


@dataclass(frozen=True)
class CloseSeam:
    """Sew the second half of a seam that `JoinPart` left open, edges even to the end."""

    item: str
    press: Press


@dataclass(frozen=True)
class Foundation:
    """Put a foundation on the table: paper or light cloth, width x height, printed with sections.

    ``sections`` are the outlines in sewing order *as printed*: the mirror image of the unit, true
    to scale, with the seam allowance around it, from the top left corner. Cloth goes on the side
    that is not printed.
    """

    item: str
    width: Fraction
    height: Fraction
    sections: tuple[Polygon, ...]


@dataclass(frozen=True)
class Cover:
    """Cover the next section of a foundation, its number counted from 1, with a piece.

    A piece is to cover its section and one seam allowance beyond it wherever there is a seam.
    The piece for section 1 is laid down, right side up, its top along the seam of section 2, its
    middle on the middle of what it is to cover. A later piece is sewn to the cloth that lies
    there, right sides together, on the line between its section and the ones before: its top edge
    is one allowance beyond that line, the middle of that edge at the middle of what it is to
    cover. The cloth beneath is trimmed one allowance beyond the line; the piece is folded over
    its section and pressed.

    ``longer`` and ``deeper`` say how much more a piece of the exact needed size has than what it
    is to cover, along the line and square to it.
    """

    item: str
    added: str
    section: int
    guide: Guide
    longer: Number
    deeper: Number


@dataclass(frozen=True)
class TrimToFoundation:
    """Trim a foundation whose sections are all covered along its own outer edges."""

    item: str


# Settings on point.


@dataclass(frozen=True)
class DiagonalRow:
    """Cells from the lower left to the upper right, with a setting triangle at each end or none.

    Cells lie as drawn and then turned an eighth to the left; triangles lie as in the finished top.
    A triangle's square corner is even with the row's; one with its long side to the row is sewn
    on middle to middle. A row without triangles is trimmed at its ends with the whole. ``start``
    says how many seams further right (less than 0: left) the row's first seam lies than that of
    the row above.
    """

    first: Placed | None
    cells: tuple[Placed, ...]
    last: Placed | None
    start: int


@dataclass(frozen=True)
class AssembleOnPoint:
    """Join diagonal rows from the top left, cell seams matching, and corners middle to middle.

    ``top_left`` goes on the first row and ``bottom_right`` on the last one, by their long sides.
    Tips of triangles that stick out beyond a row are cut off before the rows are joined.
    ``item`` comes out as it lies in the top. Seams are pressed as for `Assemble`, seen along the
    rows; the seams of the triangles at both ends are the first and the last of a row, those of the
    two corners go toward the triangles.
    """

    item: str
    top_left: Placed
    rows: tuple[DiagonalRow, ...]
    bottom_right: Placed
    allowance: Fraction
    row_press: tuple[str, ...]
    between: str


@dataclass(frozen=True)
class TrimEven:
    """Trim a flat thing with an uneven edge to width x height about its middle.

    ``off_sides`` comes off left and right, ``off_ends`` off top and bottom, measured where it
    reaches furthest. Of pieces cut to the exact needed sizes ``least_sides`` and ``least_ends``
    would come off, and one of these is nothing.
    """

    item: str
    width: Fraction
    height: Fraction
    off_sides: Number
    off_ends: Number
    least_sides: Number
    least_ends: Number


# Templates.


class SeamEnd(Enum):
    """Where a seam starts or ends: through the seam allowances, or at the corner of seam lines."""

    EDGE = "at the raw edge"
    CORNER = "at the seam corner"


@dataclass(frozen=True)
class Stretch:
    """A part of a seam, from mark to mark along one template piece on either side of it.

    ``piece`` lies in the thing that the seam is sewn to and is followed clockwise from mark
    ``start`` to mark ``end``; ``added_piece`` is followed anticlockwise. Pieces go by the names
    under which they were taken.
    """

    piece: str
    start: int
    end: int
    added_piece: str
    added_start: int
    added_end: int


@dataclass(frozen=True)
class JoinMarks:
    """Sew ``added`` to ``item`` from mark to mark along their seam lines, open and press.

    ``item`` stays as it lies and ``added`` is turned to fit. A seam that turns at a mark is set
    in: the seams that end at that mark have been stopped at the seam corner. A seam that comes
    back to its start is sewn all round. ``turns`` counts those marks, 0 for a straight seam or a
    smooth curve.
    """

    item: str
    added: str
    stretches: tuple[Stretch, ...]
    turns: int
    begin: SeamEnd
    end: SeamEnd
    allowance: Fraction
    press: Press


@dataclass(frozen=True)
class TurnEdge:
    """Turn a thing so that the straight edge of a template piece, from mark to mark, is a side.

    The edge is named clockwise along the piece, by the name under which it was taken.
    """

    item: str
    piece: str
    start: int
    end: int
    side: Side


@dataclass(frozen=True)
class LayOn:
    """Lay the shape ``added`` on ``item``, right side up, as it lies, and sew its edge down.

    The middle of its finished extent lies ``across`` to the right of the middle of ``item`` and
    ``down`` below it. ``allowance`` is turned under all round first; 0 leaves a raw edge. What
    was laid on before and lies under it is covered.
    """

    item: str
    added: str
    across: Number
    down: Number
    allowance: Fraction


Step: TypeAlias = (
    Take
    | Layer
    | Sew
    | Unpick
    | CutApart
    | Open
    | Turn
    | TurnEighths
    | Trim
    | TrimTips
    | TrimLike
    | Join
    | JoinEdges
    | JoinMitred
    | Assemble
    | AssembleOnPoint
    | TrimEven
    | Yield
    | CrossCut
    | JoinPart
    | CloseSeam
    | Foundation
    | Cover
    | TrimToFoundation
    | JoinMarks
    | TurnEdge
    | LayOn
)


SPUN = "spun"
"""How the last seam of two rows of two is pressed where it goes round the middle."""

_WAYS = {"left": -1, "right": 1, "up": -1, "down": 1, "open": 0}


def seam_ways(press: str, seams: int) -> tuple[int, ...]:
    """Where each seam of a row, or between rows, goes: -1 back, 1 on, 0 open.

    One word is for all of them: left, right, up, down, open, and inward and outward, seen from the
    middle. Else there is one for each, with commas between them.
    """
    if press in ("inward", "outward"):
        on = 1 if press == "outward" else -1
        return (-on,) * (seams // 2) + (on,) * (seams - seams // 2)
    words = press.split(", ")
    ways = tuple(_WAYS[word] for word in words)
    return ways * seams if len(ways) == 1 else ways


def pressed_other_way(step: Step) -> Step:
    """The step with its seam pressed to the other side."""
    if isinstance(step, Open | Join | JoinEdges | JoinMarks | JoinPart | CloseSeam):
        return replace(step, press=_OTHER_WAY[step.press])
    return step


_OTHER_WAY = {
    Press.ONTO_ADDED: Press.ONTO_BASE,
    Press.ONTO_BASE: Press.ONTO_ADDED,
    Press.OPEN: Press.OPEN,
}


def placed_in(step: Step) -> tuple[Placed, ...]:
    """The cells that a step takes from piles without naming them."""
    match step:
        case Assemble():
            return tuple(cell for row in step.rows for cell in row)
        case AssembleOnPoint():
            rows = (cell for r in step.rows for cell in (r.first, *r.cells, r.last) if cell)
            return (step.top_left, *rows, step.bottom_right)
        case _:
            return ()


def with_sources(step: Step, source: Callable[[str, int], tuple[str, int]]) -> Step:
    """The step with other sources and turns for all that it takes from piles."""

    def placed(cell: Placed) -> Placed:
        return Placed(*source(cell.source, cell.turn))

    match step:
        case Take():
            name, turn = source(step.source, step.turn)
            return replace(step, source=name, turn=turn)
        case Assemble():
            return replace(step, rows=tuple(tuple(map(placed, row)) for row in step.rows))
        case AssembleOnPoint():
            rows = tuple(
                DiagonalRow(
                    r.first and placed(r.first),
                    tuple(map(placed, r.cells)),
                    r.last and placed(r.last),
                    r.start,
                )
                for r in step.rows
            )
            corners = (placed(step.top_left), placed(step.bottom_right))
            return replace(step, top_left=corners[0], rows=rows, bottom_right=corners[1])
        case _:
            return step


def mirror_step(step: Step) -> Step:
    """The step that makes the left-right mirror image; sources and settings stay as they are."""
    match step:
        case Layer():
            return replace(step, corner=_mirror(step.corner))
        case Sew():
            return replace(step, line=_mirror_line(step.line))
        case CutApart():
            return _mirror_cut(step)
        case Open() | Unpick():
            return replace(step, toward=_mirror(step.toward))
        case Turn() | Take():
            return replace(step, turn=-step.turn % 4)
        case TurnEighths():
            return replace(step, eighths=-step.eighths % 8)
        case TrimTips():
            return replace(step, edge=_mirror(step.edge))
        case Trim() | TrimLike():
            return replace(step, off_left=step.off_right, off_right=step.off_left)
        case Join() | CrossCut():
            return replace(step, side=_mirror(step.side))
        case Assemble():
            rows = tuple(tuple(map(_mirror_cell, row[::-1])) for row in step.rows)
            return replace(step, rows=rows, row_press=tuple(map(_mirror_press, step.row_press)))
        case (
            JoinEdges()
            | JoinPart()
            | JoinMitred()
            | Foundation()
            | JoinMarks()
            | TurnEdge()
            | LayOn()
        ):
            return _mirror_twice(step)
        case Yield() | CloseSeam() | Cover() | TrimToFoundation() | AssembleOnPoint() | TrimEven():
            return step


_Spot = TypeVar("_Spot", Side, Corner, Side | Corner)


def _mirror(spot: _Spot) -> _Spot:
    words = spot.value.split()
    swapped = [{"left": "right", "right": "left"}.get(word, word) for word in words]
    return type(spot)(" ".join(swapped))


def _mirror_line(line: SeamLine) -> SeamLine:
    if isinstance(line, Edge):
        return replace(line, side=_mirror(line.side))
    if isinstance(line, Middle):
        return line
    return Diagonal(Slope.FALLING if line.slope is Slope.RISING else Slope.RISING, line.offset)


def _mirror_cut(step: CutApart) -> CutApart:
    """Only an upright cut exchanges its first (left) and second (right) part."""
    line = step.line
    upright = (isinstance(line, Edge) and line.side in (Side.LEFT, Side.RIGHT)) or (
        isinstance(line, Middle) and line.way is Way.UPRIGHT
    )
    parts = (step.second, step.first) if upright else (step.first, step.second)
    return CutApart(step.item, _mirror_line(step.line), *parts)


def _mirror_twice(
    step: JoinEdges | JoinPart | JoinMitred | Foundation | JoinMarks | TurnEdge | LayOn,
) -> Step:
    """Steps with more than one thing to mirror."""
    match step:
        case JoinEdges():
            edge, added_edge = _mirror(step.edge), _mirror(step.added_edge)
            return replace(step, edge=edge, added_edge=added_edge)
        case JoinPart():
            return replace(step, side=_mirror(step.side), start=_mirror(step.start))
        case JoinMitred():
            return replace(step, left=step.right, right=step.left)
        case Foundation():
            mirror = mirror_left_right(step.width)
            return replace(step, sections=tuple(mirror.polygon(s) for s in step.sections))
        case JoinMarks() | TurnEdge() | LayOn():
            return _mirror_template_step(step)


def _mirror_cell(cell: Placed) -> Placed:
    return replace(cell, turn=-cell.turn % 4)


def _mirror_press(press: str) -> str:
    swapped = {"left": "right", "right": "left"}
    return ", ".join(swapped.get(word, word) for word in press.split(", ")[::-1])


def _mirror_template_step(step: JoinMarks | TurnEdge | LayOn) -> Step:
    """Mirrored templates keep the numbers of their marks, the other way round."""
    if isinstance(step, JoinMarks):
        stretches = tuple(map(_mirror_stretch, step.stretches[::-1]))
        return replace(step, stretches=stretches, begin=step.end, end=step.begin)
    if isinstance(step, TurnEdge):
        return replace(step, start=step.end, end=step.start, side=_mirror(step.side))
    return replace(step, across=-step.across)


def _mirror_stretch(stretch: Stretch) -> Stretch:
    return Stretch(
        stretch.piece,
        stretch.end,
        stretch.start,
        stretch.added_piece,
        stretch.added_end,
        stretch.added_start,
    )
