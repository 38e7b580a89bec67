"""Plans as people make them at the table: quick, and the yardstick that the planner must not miss.

Goes in: the grid, or strips of given heights to be filled. Comes out: rows that hold every piece
needed. Counts of any size cost the same time: equal strips are handled together.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pieceproof.cutting.grid import Grid, Row, Rows, length_of, stacked

Order = tuple[int, ...]  # lies in the order they are cut, one or two per kind


@dataclass(frozen=True, slots=True)
class _Open:
    """`count` equal strips with `free` width left in each."""

    height: int
    count: int
    free: int
    segments: tuple[tuple[int, int], ...]


def separate_strips(grid: Grid) -> Rows:
    """Strips for each size on its own, lying the better way: what most printed patterns do."""
    return tuple(
        entry
        for kind in range(len(grid.kinds))
        for entry in min(
            (_alone(grid, lie) for lie in _lies_of(grid, kind)),
            key=length_of,
        )
    )


def first_fit(grid: Grid, order: Order) -> Rows:
    """Each lie in turn into the first strips with room, the rest into new strips of its height."""
    strips: list[_Open] = []
    for lie in order:
        strips = _added(grid, strips, lie, grid.kinds[grid.lies[lie].kind].need)
    return _rows(strips)


def greedy_orders(grid: Grid) -> dict[str, Order]:
    """The orders tried: by height, by width, by area; pieces lying flat or standing."""
    return {
        f"{order}, {way}": tuple(
            sorted(_chosen(grid, way), key=lambda lie: _KEYS[order](grid, lie))
        )
        for order in _KEYS
        for way in ("flat", "standing")
    }


def greedy_plans(grid: Grid) -> tuple[Rows, ...]:
    """All the plans above."""
    orders = greedy_orders(grid).values()
    return (separate_strips(grid), *(first_fit(grid, order) for order in orders))


def refilled(grid: Grid, strips: Mapping[int, int]) -> Iterator[Rows]:
    """Strips of given heights filled in each of the orders, where they hold every piece.

    Each size goes into the lowest strips that take it, so that few strips hold several sizes.
    """
    empty = [_Open(height, strips[height], grid.width, ()) for height in sorted(strips)]
    for order in greedy_orders(grid).values():
        filled, missing = empty, 0
        for lie in order:
            filled, left = _poured(grid, filled, lie, grid.kinds[grid.lies[lie].kind].need)
            missing += left
        if not missing:
            yield _rows(filled)


def _by_height(grid: Grid, lie: int) -> tuple[int, ...]:
    return -grid.lies[lie].along, -grid.lies[lie].across, lie


def _by_width(grid: Grid, lie: int) -> tuple[int, ...]:
    return -grid.lies[lie].across, -grid.lies[lie].along, lie


def _by_area(grid: Grid, lie: int) -> tuple[int, ...]:
    return -grid.lies[lie].along * grid.lies[lie].across, *_by_height(grid, lie)


_KEYS = {"height": _by_height, "width": _by_width, "area": _by_area}


def _lies_of(grid: Grid, kind: int) -> tuple[int, ...]:
    return tuple(number for number, lie in enumerate(grid.lies) if lie.kind == kind)


def _chosen(grid: Grid, way: str) -> tuple[int, ...]:
    """One lie per kind: the lower or the higher one where it may be turned."""
    pick = min if way == "flat" else max
    return tuple(
        pick(_lies_of(grid, kind), key=lambda lie: (grid.lies[lie].along, lie))
        for kind in range(len(grid.kinds))
    )


def _alone(grid: Grid, lie: int) -> Rows:
    need = grid.kinds[grid.lies[lie].kind].need
    return tuple((Row(s.height, s.segments), s.count) for s in _new_strips(grid, lie, need))


def _new_strips(grid: Grid, lie: int, pieces: int) -> list[_Open]:
    across, height = grid.lies[lie].across, grid.lies[lie].along
    per_strip = grid.width // across
    full, rest = divmod(pieces, per_strip)
    return [
        _Open(height, count, grid.width - used * across, ((lie, used),))
        for count, used in ((full, per_strip), (1, rest))
        if count and used
    ]


def _added(grid: Grid, strips: list[_Open], lie: int, pieces: int) -> list[_Open]:
    after, left = _poured(grid, strips, lie, pieces)
    return after + _new_strips(grid, lie, left)


def _poured(grid: Grid, strips: list[_Open], lie: int, pieces: int) -> tuple[list[_Open], int]:
    """The strips with the pieces in their free ends, and how many pieces found no room."""
    after: list[_Open] = []
    for strip in strips:
        parts, pieces = _filled(grid, strip, lie, pieces)
        after.extend(parts)
    return after, pieces


def _rows(strips: list[_Open]) -> Rows:
    return tuple((Row(strip.height, strip.segments), strip.count) for strip in strips)


def _filled(grid: Grid, strip: _Open, lie: int, pieces: int) -> tuple[list[_Open], int]:
    """The strips with the pieces put into their free ends, and the pieces that found no room."""
    best = max(_fitting(grid, strip, lie), key=lambda fit: (fit[1] * fit[2], -fit[0]), default=None)
    if best is None or not pieces:
        return [strip], pieces
    way, per_strip, stack = best
    segments = -(-pieces // stack)
    full = min(strip.count, segments // per_strip)
    rest = segments - full * per_strip if full < strip.count else 0
    groups = (
        (full, per_strip),
        (1 if rest else 0, rest),
        (strip.count - full - (1 if rest else 0), 0),
    )
    parts = [_with(grid, strip, way, count, used) for count, used in groups if count]
    return parts, max(0, pieces - (full * per_strip + rest) * stack)


def _fitting(grid: Grid, strip: _Open, lie: int) -> list[tuple[int, int, int]]:
    """(lie, segments per strip, pieces per segment) for each way the kind fits a strip's end."""
    return [
        (way, strip.free // grid.lies[way].across, stacked(grid, strip.height, way))
        for way in _lies_of(grid, grid.lies[lie].kind)
        if grid.lies[way].across <= strip.free and grid.lies[way].along <= strip.height
    ]


def _with(grid: Grid, strip: _Open, lie: int, count: int, used: int) -> _Open:
    if not used:
        return _Open(strip.height, count, strip.free, strip.segments)
    free = strip.free - used * grid.lies[lie].across
    return _Open(strip.height, count, free, (*strip.segments, (lie, used)))
