"""Rows of the grid laid out as the plan's strips: letters given out, surplus pieces dropped.

Goes in: the grid and rows that hold at least every piece needed. Comes out: strips in cutting
order, highest first, full ones before others. It does not choose rows.
"""

from collections.abc import Iterator

from quicktions import Fraction

from pieceproof.cutting.grid import Grid, Kind, Row, Rows, stacked
from pieceproof.cutting.plan import Cut, Segment, Strip

Left = list[list[int]]  # pieces still to cut, per kind and letter


def strips_of(grid: Grid, rows: Rows) -> tuple[Strip, ...]:
    """The strips to cut, highest first; strips used whole for long pieces come first."""
    left = [[count for _, _, count in kind.letters] for kind in grid.kinds]
    strips = [_whole_strip(grid, *whole) for whole in grid.whole]
    for row, count in sorted(rows, key=lambda entry: _fullest_first(grid, entry[0])):
        strips.extend(_strips_of_row(grid, row, count, left))
    return tuple(sorted(strips, key=lambda strip: -strip.height))


def _fullest_first(grid: Grid, row: Row) -> tuple[int, int, tuple[tuple[int, int], ...]]:
    used = sum(grid.lies[lie].across * segments for lie, segments in row.segments)
    return -row.height, -used, row.segments


def _whole_strip(grid: Grid, height: int, letter: str, count: int) -> Strip:
    across, along = grid.width * grid.step, height * grid.step
    return Strip(along, count, (Segment(across, 1, (Cut(letter, 1, False, across, along),)),))


def _strips_of_row(grid: Grid, row: Row, count: int, left: Left) -> Iterator[Strip]:
    """Equal strips for as long as the letters last, then the next ones."""
    while count:
        after = [list(letters) for letters in left]
        segments = tuple(_segments_of_row(grid, row, after))
        if not segments:
            return
        taken = [
            (kind, letter, before - after[kind][letter])
            for kind, letters in enumerate(left)
            for letter, before in enumerate(letters)
            if before > after[kind][letter]
        ]
        times = min(count, *(left[kind][letter] // used for kind, letter, used in taken))
        for kind, letter, used in taken:
            left[kind][letter] -= used * times
        yield Strip(_height(grid, row, segments), times, segments)
        count -= times


def _segments_of_row(grid: Grid, row: Row, left: Left) -> Iterator[Segment]:
    """The row's segments, longest pieces first; takes their pieces out of `left`."""
    for lie, segments in sorted(row.segments, key=lambda entry: _cutting_order(grid, entry[0])):
        stack, rest = stacked(grid, row.height, lie), segments
        while rest:
            cuts, times = _stack(grid, lie, stack, rest, left)
            if not cuts:
                break
            yield Segment(cuts[0].across, times, cuts)
            rest -= times


def _cutting_order(grid: Grid, lie: int) -> tuple[int, int, int]:
    return -grid.lies[lie].along, -grid.lies[lie].across, lie


def _stack(grid: Grid, lie: int, stack: int, most: int, left: Left) -> tuple[tuple[Cut, ...], int]:
    """The pieces of the next segment, and how many such segments follow each other."""
    kind = grid.lies[lie].kind
    taken = list(_taken(left[kind], stack))
    if not taken:
        return (), 0
    times = min(most, *(left[kind][letter] // used for letter, used in taken))
    for letter, used in taken:
        left[kind][letter] -= used * times
    return tuple(_cut(grid, lie, grid.kinds[kind], letter, used) for letter, used in taken), times


def _taken(letters: list[int], stack: int) -> Iterator[tuple[int, int]]:
    for letter, count in enumerate(letters):
        used = min(count, stack)
        if used:
            yield letter, used
        stack -= used


def _cut(grid: Grid, lie: int, kind: Kind, number: int, count: int) -> Cut:
    letter, across, _ = kind.letters[number]
    lying = grid.lies[lie]
    turned = kind.turnable and lying.across != across
    return Cut(letter, count, turned, lying.across * grid.step, lying.along * grid.step)


def _height(grid: Grid, row: Row, segments: tuple[Segment, ...]) -> Fraction:
    """The tallest piece that is left decides, unless a stack of lower ones stands above it."""
    tallest = max(segment.cuts[0].along for segment in segments)
    stacks = [sum(cut.count for cut in s.cuts) * s.cuts[0].along for s in segments]
    return tallest if max(stacks) <= tallest else row.height * grid.step
