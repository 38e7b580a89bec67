"""Where everything lies in the finished top: grids of cells with their finished sizes.

In: a design whose names are known to exist. Out: a `Layout` for every block, every unit that is a
grid, and the setting, or problems where sizes do not agree. Knows nothing of seams.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TypeVar

from pieceproof.borders import lay_borders
from pieceproof.cells import Laid, Layout
from pieceproof.methods import method_of
from pieceproof.model import Cell, Design, Grid, Sashing, SashingPlace, Setting, Size
from pieceproof.problems import Place, Problem

TOP = "top"
CENTRE = "quilt centre"
RESERVED = (TOP, CENTRE)

_T = TypeVar("_T")


def lay_out(design: Design) -> tuple[Mapping[str, Layout], tuple[Problem, ...]]:
    """Layouts by name, inner grids before those that use them, then the setting, then borders."""
    layouts: dict[str, Layout] = {}
    problems: list[Problem] = []
    grids = all_grids(design)
    for name in in_order(grids):
        if not _ready(grids[name].rows, grids, layouts):
            continue
        layout, faults = _grid_layout(design, layouts, name, grids[name])
        problems += faults
        if layout is not None:
            layouts[name] = layout
    if _ready(design.setting.rows, grids, layouts):
        layout, faults = _setting_layout(design, layouts, design.setting)
        problems += faults
        if layout is not None:
            layouts[setting_name(design)] = layout
    centre = layouts.get(setting_name(design))
    if centre is not None and not problems:
        bordered, faults = lay_borders(
            design, centre.size, lambda cell: _placed_size(design, layouts, cell)
        )
        layouts.update(bordered)
        problems += faults
    return layouts, tuple(problems)


def setting_name(design: Design) -> str:
    """The joined blocks are the quilt centre where borders follow, else the top itself."""
    return CENTRE if design.borders else TOP


def all_grids(design: Design) -> Mapping[str, Grid]:
    """Blocks, and units that are grids."""
    nested = {name: unit for name, unit in design.units.items() if isinstance(unit, Grid)}
    return {**nested, **design.blocks}


def in_order(grids: Mapping[str, Grid]) -> tuple[str, ...]:
    """Names so that every grid comes after the grids it uses; the caller has ruled out cycles."""
    order: list[str] = []

    def visit(name: str) -> None:
        for row in grids[name].rows:
            for cell in row:
                if cell.name in grids and cell.name not in order:
                    visit(cell.name)
        if name not in order:
            order.append(name)

    for name in grids:
        visit(name)
    return tuple(order)


def finished_size(design: Design, layouts: Mapping[str, Layout], name: str) -> Size:
    """The finished size of a unit or block as drawn."""
    if name in layouts:
        return layouts[name].size
    unit = design.units[name]
    return method_of(unit).size(unit)


def _ready(
    rows: Sequence[Sequence[Cell]], grids: Mapping[str, Grid], layouts: Mapping[str, Layout]
) -> bool:
    return all(cell.name not in grids or cell.name in layouts for row in rows for cell in row)


def _placed_size(design: Design, layouts: Mapping[str, Layout], cell: Cell) -> Size | None:
    if cell.name in design.fabrics:
        return None
    size = finished_size(design, layouts, cell.name)
    return size if cell.turn % 2 == 0 else Size(size.height, size.width)


def _grid_layout(
    design: Design, layouts: Mapping[str, Layout], name: str, grid: Grid
) -> tuple[Layout | None, list[Problem]]:
    sizes = [[_placed_size(design, layouts, cell) for cell in row] for row in grid.rows]
    problems: list[Problem] = []
    wide = [
        _agreed(
            design,
            [
                (s.width, row[i])
                for s, row in zip((r[i] for r in sizes), grid.rows, strict=True)
                if s
            ],
            grid.columns[i] if i < len(grid.columns) else None,
            ("width", f"column {i + 1} of {name}", "columns"),
            grid.rows[0][i].place,
            problems,
        )
        for i in range(len(grid.rows[0]))
    ]
    high = [
        _agreed(
            design,
            [(s.height, cell) for s, cell in zip(sizes[j], row, strict=True) if s],
            grid.heights[j] if j < len(grid.heights) else None,
            ("height", f"row {j + 1} of {name}", "heights"),
            row[0].place,
            problems,
        )
        for j, row in enumerate(grid.rows)
    ]
    if problems:
        return None, problems
    rows = tuple(
        tuple(
            Laid(cell.name, cell.turn, cell.mirrored, Size(wide[i], high[j]), _cell_role(j, i))
            for i, cell in enumerate(row)
        )
        for j, row in enumerate(grid.rows)
    )
    return Layout(rows), []


def _agreed(
    design: Design,
    known: list[tuple[Fraction, Cell]],
    stated: Fraction | None,
    words: tuple[str, str, str],
    place: Place,
    problems: list[Problem],
) -> Fraction:
    """The one size that all cells of a row or column have; a problem where they differ."""
    side, where, key = words
    if not known and stated is None:
        problems.append(
            Problem(
                place,
                "size-unknown",
                f"{where} holds only fabrics, so nothing says its {side}",
                "a unit in it, or its size",
                f"add `{key}:` to the block with one finished {side} for each",
            )
        )
        return Fraction(1)
    size = known[0][0] if known else stated or Fraction(1)
    for other, cell in known:
        wanted = stated if stated is not None else size
        if other != wanted:
            problems.append(
                Problem(
                    cell.place,
                    "sizes-differ",
                    f"`{cell.name}` has a finished {side} of {design.measure.show(other)}",
                    f"{design.measure.show(wanted)}, as the rest of {where}",
                    f"change the unit by {design.measure.show(abs(other - wanted))}, "
                    "or place another one",
                )
            )
    return size


def _setting_layout(
    design: Design, layouts: Mapping[str, Layout], setting: Setting
) -> tuple[Layout | None, list[Problem]]:
    motif = setting.rows
    down, across = setting.down or len(motif), setting.across or len(motif[0])
    grid = Grid(
        tuple(
            tuple(motif[j % len(motif)][i % len(motif[0])] for i in range(across))
            for j in range(down)
        ),
        at=setting.at,
    )
    layout, problems = _grid_layout(design, layouts, "the setting", grid)
    if layout is None or setting.sashing is None:
        return layout, problems
    return Layout(_with_sashing(layout.rows, setting.sashing)), problems


def _with_sashing(
    rows: tuple[tuple[Laid, ...], ...], sashing: Sashing
) -> tuple[tuple[Laid, ...], ...]:
    width, place = sashing.width, sashing.place
    sashed = [
        _interleave(
            row, _plain(sashing.fabric, Size(width, row[0].size.height), "upright sash"), place
        )
        for row in rows
    ]
    if sashing.cornerstones is None:
        whole = sum((cell.size.width for cell in sashed[0]), Fraction(0))
        strips: tuple[Laid, ...] = (_plain(sashing.fabric, Size(whole, width), "long sash"),)
    else:
        across = [
            _plain(sashing.fabric, Size(cell.size.width, width), "level sash") for cell in rows[0]
        ]
        strips = _interleave(
            across, _plain(sashing.cornerstones, Size(width, width), "cornerstone"), place
        )
    return _interleave(sashed, strips, place)


def _plain(fabric: str, size: Size, role: str) -> Laid:
    return Laid(fabric, 0, False, size, role)


def _cell_role(row: int, column: int) -> str:
    return f"row {row + 1} patch {column + 1}"


def _interleave(items: Sequence[_T], strip: _T, place: SashingPlace) -> tuple[_T, ...]:
    """The items with a strip between them, and at both ends where sashing runs around."""
    mixed = [strip]
    for item in items:
        mixed += [item, strip]
    return tuple(mixed if place is SashingPlace.AROUND else mixed[1:-1])
