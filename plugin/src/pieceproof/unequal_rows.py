"""Settings of rows, or columns, that differ: each with its own cells, all of one length.

In: a setting and what finished size each cell has. Out: layouts by name, or problems that say by
how much a row is off and what would fit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from quicktions import Fraction

from pieceproof.cells import Laid, Layout, placed, plain
from pieceproof.lengths import floor_to
from pieceproof.model import Cell, Measure, SetRow, Size, Strip, UnequalColumns, UnequalRows
from pieceproof.problems import Problem

_T = TypeVar("_T")

SizeOf = Callable[[Cell], Size | None]
Found = tuple[Mapping[str, Layout], list[Problem]]


@dataclass(frozen=True)
class _Axis:
    """Rows run across and have a width, columns run down and have a height."""

    what: str
    long: str
    thick: str

    def sides(self, size: Size) -> tuple[Fraction, Fraction]:
        """Length along the row and thickness across it."""
        return (size.width, size.height) if self is ROWS else (size.height, size.width)

    def laid(self, fabric: str, along: Fraction, across: Fraction, role: str) -> Laid:
        """A strip of fabric in a row."""
        width, height = (along, across) if self is ROWS else (across, along)
        return plain(fabric, width, height, role)


_ENDS = ("first coping", "last coping")
ROWS = _Axis("row", "width", "height")
COLUMNS = _Axis("column", "height", "width")


@dataclass(frozen=True)
class _Line:
    """A row before it is made as long as the others."""

    number: int
    row: SetRow
    cells: tuple[Laid, ...]
    along: Fraction
    across: Fraction


def lay_rows(setting: UnequalRows, name: str, size_of: SizeOf, measure: Measure) -> Found:
    """Rows below each other, strips between them."""
    lines, problems = _lines(setting.rows, ROWS, size_of, measure)
    if problems:
        return {}, problems
    along = max(line.along for line in lines)
    spacer = _long_spacer(setting.spacers, ROWS, along)
    rows = tuple(_filled(line, ROWS, along, measure) for line in lines)
    return {name: Layout(tuple(_between(rows, tuple((s,) for s in spacer))))}, []


def lay_columns(setting: UnequalColumns, name: str, size_of: SizeOf, measure: Measure) -> Found:
    """Columns beside each other, each sewn first, strips between them."""
    lines, problems = _lines(setting.columns, COLUMNS, size_of, measure)
    if problems:
        return {}, problems
    along = max(line.along for line in lines)
    spacer = _long_spacer(setting.spacers, COLUMNS, along)
    layouts: dict[str, Layout] = {}
    columns = []
    for line in lines:
        cells = _filled(line, COLUMNS, along, measure)
        if len(cells) > 1:
            column = f"column {line.number}"
            layouts[column] = Layout(tuple((cell,) for cell in cells))
            columns.append(Laid(column, 0, False, Size(line.across, along), column))
        else:
            columns += cells
    return {**layouts, name: Layout((tuple(_between(columns, spacer)),))}, []


def _lines(
    rows: Sequence[SetRow], axis: _Axis, size_of: SizeOf, measure: Measure
) -> tuple[list[_Line], list[Problem]]:
    lines, problems = [], []
    for number, row in enumerate(rows, start=1):
        sizes = [size_of(cell) for cell in row.cells]
        faults = list(_uneven(row, sizes, axis, measure, number))
        problems += faults
        if not faults:
            lines.append(_line(number, row, [s for s in sizes if s is not None], axis))
    return lines, problems or list(_short(lines, axis, measure))


def _line(number: int, row: SetRow, sizes: Sequence[Size], axis: _Axis) -> _Line:
    across = axis.sides(sizes[0])[1]
    cells = [placed(c, s, f"{axis.what} {number}") for c, s in zip(row.cells, sizes, strict=True)]
    between: tuple[Laid, ...] = ()
    if row.spacers is not None:
        role = f"{axis.what} {number} spacer"
        between = (axis.laid(row.spacers.fabric, row.spacers.width, across, role),)
    laid = tuple(_between(cells * row.times, between))
    along = sum((axis.sides(c.size)[0] for c in laid), Fraction(0))
    return _Line(number, row, laid, along, across)


def _filled(line: _Line, axis: _Axis, along: Fraction, measure: Measure) -> tuple[Laid, ...]:
    """The cells of a row with coping strips at both ends, where they are too short."""
    first, last = (
        (axis.laid(line.row.coping or "", end, line.across, f"{axis.what} {line.number} {role}"),)
        if end
        else ()
        for role, end in zip(_ENDS, _copings(along - line.along, measure), strict=True)
    )
    return (*first, *line.cells, *last)


def _copings(missing: Fraction, measure: Measure) -> tuple[Fraction, Fraction]:
    """Two equal strips, or as near to equal as the ruler allows."""
    first = floor_to(missing / 2, measure.step)
    return first, missing - first


def _long_spacer(strip: Strip | None, axis: _Axis, along: Fraction) -> tuple[Laid, ...]:
    if strip is None:
        return ()
    return (axis.laid(strip.fabric, along, strip.width, f"spacer between {axis.what}s"),)


def _between(items: Sequence[_T], strip: tuple[_T, ...]) -> Iterator[_T]:
    """The items with the strip, if there is one, between them."""
    for number, item in enumerate(items):
        if number:
            yield from strip
        yield item


def _uneven(
    row: SetRow, sizes: Sequence[Size | None], axis: _Axis, measure: Measure, number: int
) -> Iterator[Problem]:
    first: Fraction | None = None
    for cell, size in zip(row.cells, sizes, strict=True):
        if size is None:
            yield unsized(cell)
            continue
        across = axis.sides(size)[1]
        first = across if first is None else first
        if across != first:
            show, off = measure.show, abs(across - first)
            yield Problem(
                cell.place,
                "sizes-differ",
                f"`{cell.name}` has a finished {axis.thick} of {show(across)}",
                f"{show(first)}, as the first cell of {axis.what} {number}",
                f"sew a strip of {show(off)} to the smaller one in a block of its own, "
                "or place another one",
            )


def unsized(cell: Cell) -> Problem:
    """A fabric where nothing says how large it is."""
    return Problem(
        cell.place,
        "size-unknown",
        f"the fabric `{cell.name}`, and nothing says its size",
        "a unit or block",
        f"declare a unit with `method: plain patch`, `fabric: {cell.name}` and its size, "
        "and use its name here",
    )


def _short(lines: Sequence[_Line], axis: _Axis, measure: Measure) -> Iterator[Problem]:
    longest = max(lines, key=lambda line: (line.along, -line.number))
    for line in lines:
        if line.along < longest.along and line.row.coping is None:
            missing, show = longest.along - line.along, measure.show
            yield Problem(
                line.row.at.key("cells"),
                "row-too-short",
                f"{axis.what} {line.number} with a {axis.long} of {show(line.along)}, "
                f"{show(missing)} less than {axis.what} {longest.number}",
                f"{axis.what}s of one {axis.long}, {show(longest.along)}",
                "; or ".join(_remedies(line, axis, missing, measure)),
            )


def _remedies(line: _Line, axis: _Axis, missing: Fraction, measure: Measure) -> Iterator[str]:
    """The designs nearest to this one that fit, each with its numbers."""
    show, row = measure.show, line.row
    ends = [show(end) for end in _copings(missing, measure) if end]
    yield f"add `coping:` with a fabric, for strips of {' and '.join(ends)} at its ends"
    count = len(row.cells) * row.times
    if row.spacers is not None and count > 1:
        more = missing / (count - 1)
        if floor_to(more, measure.step) == more:
            yield f"make its spacers {show(row.spacers.width + more)} wide"
    alike = {(cell.name, cell.turn % 2) for cell in row.cells}
    more = missing / count
    if len(alike) == 1 and floor_to(more, measure.step) == more:
        first = next(cell for cell in line.cells if cell.name == row.cells[0].name)
        yield (
            f"give `{first.name}` a {axis.long} of "
            f"{show(axis.sides(first.size)[0] + more)} instead of {show(axis.sides(first.size)[0])}"
        )
