"""The demand as whole steps of the ruler's grid.

Goes in: a demand without problems. Comes out: sizes, the ways each may lie, the strip heights
worth cutting, all as ints. Equal sizes are one kind whatever their letters. Nothing here
decides which rows are cut.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, Long, Want, join_loss
from pieceproof.cutting.plan import Joined


@dataclass(frozen=True, slots=True)
class Kind:
    """`need` pieces of one size; `letters` says for whom: (letter, across in the demand, count)."""

    across: int
    along: int
    turnable: bool
    need: int
    letters: tuple[tuple[str, int, int], ...]


@dataclass(frozen=True, slots=True)
class Lie:
    """One way a kind may lie on the cloth."""

    kind: int
    across: int
    along: int


@dataclass(frozen=True, slots=True)
class Row:
    """One strip: its height and, for each lie in it, the number of segments.

    A segment holds as many pieces, one above the other, as the height allows.
    """

    height: int
    segments: tuple[tuple[int, int], ...]


Rows = tuple[tuple[Row, int], ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """The demand in steps: what is still to be planned, and rows that are cut in any case."""

    width: int
    step: Fraction
    kinds: tuple[Kind, ...]
    lies: tuple[Lie, ...]
    heights: tuple[int, ...]
    whole: tuple[tuple[int, str, int], ...]  # (height, letter, count) of strips used whole
    joined: tuple[Joined, ...]


def grid_of(demand: Demand) -> Grid:
    """The demand on the ruler's grid; a usable width off the grid counts down to it."""
    step, width = demand.step, demand.usable_width // demand.step
    cloth = width * step
    longs = [long for long in demand.longs if _is_joined(long, cloth)]
    joined = tuple(_joined(long, cloth, step) for long in longs)
    whole = tuple(
        (int(long.width / step), run.letter, run.strips - 1)
        for long, run in zip(longs, joined, strict=True)
    )
    wants = [*demand.wants, *(_as_want(long, cloth, step) for long in demand.longs)]
    kinds = _kinds(wants, step)
    lies = tuple(_lies(kinds, width))
    heights = tuple(sorted({lie.along for lie in lies}))
    return Grid(width, step, kinds, lies, heights, whole, joined)


def stacked(grid: Grid, height: int, lie: int) -> int:
    """How many pieces of this lie one segment of a strip of this height holds."""
    return height // grid.lies[lie].along


def pieces_in(grid: Grid, row: Row) -> dict[int, int]:
    """How many pieces of each kind one strip of this row holds."""
    pieces: dict[int, int] = {}
    for lie, segments in row.segments:
        kind = grid.lies[lie].kind
        pieces[kind] = pieces.get(kind, 0) + segments * stacked(grid, row.height, lie)
    return pieces


def length_of(rows: Rows) -> int:
    """Length of cloth the rows use."""
    return sum(row.height * count for row, count in rows)


def strips_in(rows: Rows) -> int:
    """How many strips the rows are."""
    return sum(count for _, count in rows)


def _is_joined(long: Long, width: Fraction) -> bool:
    return long.way == "crosswise" and long.length > width


def _joined(long: Long, width: Fraction, step: Fraction) -> Joined:
    """n strips of width W give a run of n W - (n - 1) loss: the smallest n that is long enough.

    The last part may be shorter than the cloth is wide, but not shorter than twice the strip's
    width, so that it can be handled and joined.
    """
    loss, total = join_loss(long), long.length * long.count
    strips = max(2, ceil((total - loss) / (width - loss)))
    missing = total - (strips - 1) * (width - loss)
    last = min(width, max(ceil(missing / step) * step, 2 * long.width))
    run = (strips - 1) * (width - loss) + last
    return Joined(long.letter, strips, long.join, loss, run, long.length, long.count)


def _as_want(long: Long, width: Fraction, step: Fraction) -> Want:
    """What of a long strip is planned among the other pieces: all of it, or its last part."""
    if long.way == "lengthwise":
        return Want(long.letter, long.width, long.length, long.count, turnable=False)
    if not _is_joined(long, width):
        return Want(long.letter, long.length, long.width, long.count, turnable=False)
    joined = _joined(long, width, step)
    last = joined.run - (joined.strips - 1) * (width - joined.loss)
    return Want(long.letter, last, long.width, 1, turnable=False)


def _kinds(wants: Iterable[Want], step: Fraction) -> tuple[Kind, ...]:
    """Wants of one size and freedom together, largest first."""
    groups: dict[tuple[int, int, bool], list[tuple[str, int, int]]] = {}
    for want in wants:
        across, along = int(want.across / step), int(want.along / step)
        turnable = want.turnable and across != along
        size = (max(across, along), min(across, along)) if turnable else (across, along)
        groups.setdefault((*size, turnable), []).append((want.letter, across, want.count))
    return tuple(
        Kind(across, along, turnable, sum(entry[2] for entry in letters), tuple(letters))
        for (across, along, turnable), letters in sorted(
            groups.items(), key=lambda group: (-group[0][0] * group[0][1], group[0])
        )
    )


def _lies(kinds: tuple[Kind, ...], width: int) -> Iterator[Lie]:
    for number, kind in enumerate(kinds):
        if kind.across <= width:
            yield Lie(number, kind.across, kind.along)
        if kind.turnable and kind.along <= width:
            yield Lie(number, kind.along, kind.across)
