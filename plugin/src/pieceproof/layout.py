"""Where everything lies in the finished top: grids of cells with their finished sizes.

In: a design whose names are known to exist. Out: a `Layout` for every block, every unit that is a
grid, and the setting, or problems where sizes do not agree. Knows nothing of seams.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias, TypeVar

from quicktions import Fraction

from pieceproof.borders import lay_borders
from pieceproof.cells import Laid, Layout, placed, turned
from pieceproof.forms import told
from pieceproof.methods import method_of
from pieceproof.model import (
    Cell,
    Design,
    Grid,
    Medallion,
    OnPoint,
    PiecedSashing,
    Sashing,
    SashingPlace,
    Setting,
    Size,
    UnequalColumns,
    UnequalRows,
)
from pieceproof.on_point import OnPointLayout, Sashes, cells_used, lay_on_point, least_size
from pieceproof.problems import Place, Problem
from pieceproof.rounds import lay_medallion
from pieceproof.unequal_rows import lay_columns, lay_rows, unsized

TOP = "top"
CENTRE = "quilt centre"
RESERVED = (TOP, CENTRE)

_T = TypeVar("_T")


AnyLayout: TypeAlias = Layout | OnPointLayout

_Found = tuple[Mapping[str, AnyLayout], list[Problem]]


def lay_out(design: Design) -> tuple[Mapping[str, AnyLayout], tuple[Problem, ...]]:
    """Layouts by name, inner grids before those that use them, then the setting, then borders."""
    layouts: dict[str, AnyLayout] = {}
    problems: list[Problem] = []
    grids = all_grids(design)
    for name in in_order(grids):
        if not _ready([c for row in grids[name].rows for c in row], grids, layouts):
            continue
        layout, faults = _grid_layout(design, layouts, name, grids[name])
        problems += faults
        if layout is not None:
            layouts[name] = layout
    cells = [text.value for text in told(design.setting) if text.kind is Cell]
    if _ready(cells, grids, layouts):
        found, faults = _set(design, layouts)
        layouts.update(found)
        problems += faults
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


def finished_size(design: Design, layouts: Mapping[str, AnyLayout], name: str) -> Size:
    """The finished size of a unit or block as drawn."""
    if name in layouts:
        return layouts[name].size
    unit = design.units[name]
    return method_of(unit).size(unit)


def _ready(
    cells: Sequence[Cell], grids: Mapping[str, Grid], layouts: Mapping[str, AnyLayout]
) -> bool:
    return all(cell.name not in grids or cell.name in layouts for cell in cells)


def _placed_size(design: Design, layouts: Mapping[str, AnyLayout], cell: Cell) -> Size | None:
    if cell.name in design.fabrics:
        return None
    size = finished_size(design, layouts, cell.name)
    return size if cell.turn % 2 == 0 else Size(size.height, size.width)


def _grid_layout(
    design: Design, layouts: Mapping[str, AnyLayout], name: str, grid: Grid
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


def _set(design: Design, layouts: Mapping[str, AnyLayout]) -> _Found:
    setting, name, measure = design.setting, setting_name(design), design.measure

    def size_of(cell: Cell) -> Size | None:
        return _placed_size(design, layouts, cell)

    match setting:
        case Setting():
            return _straight(design, layouts, setting)
        case OnPoint():
            return _on_point(design, layouts, setting)
        case UnequalRows():
            return lay_rows(setting, name, size_of, measure)
        case UnequalColumns():
            return lay_columns(setting, name, size_of, measure)
        case Medallion():
            return lay_medallion(setting, name, size_of, measure)


def _straight(design: Design, layouts: Mapping[str, AnyLayout], setting: Setting) -> _Found:
    """The motif repeated; where all blocks are of one size, plain ones are too."""
    motif = setting.rows
    down, across = setting.down or len(motif), setting.across or len(motif[0])
    sizes = [_placed_size(design, layouts, cell) for row in motif for cell in row]
    widths, heights = ({getattr(s, side) for s in sizes if s} for side in ("width", "height"))
    grid = Grid(
        tuple(
            tuple(motif[j % len(motif)][i % len(motif[0])] for i in range(across))
            for j in range(down)
        ),
        tuple(widths) * across if len(widths) == 1 else (),
        tuple(heights) * down if len(heights) == 1 else (),
        at=setting.at,
    )
    layout, problems = _grid_layout(design, layouts, "the setting", grid)
    problems = [
        replace(
            p, remedy="declare a unit by the method `plain patch` with its size, and use it here"
        )
        if p.code == "size-unknown"
        else p
        for p in problems
    ]
    if layout is None:
        return {}, problems
    if setting.sashing is not None and setting.pieced_sashing is not None:
        return {}, [_two_sashings(setting)]
    if setting.sashing is not None:
        layout = Layout(_with_sashing(layout.rows, setting.sashing))
    if setting.pieced_sashing is not None:
        sashing = setting.pieced_sashing
        problems = list(_sash_faults(design, layouts, layout, sashing))
        layout = _with_pieced_sashing(design, layouts, layout, sashing)
    return ({} if problems else {setting_name(design): layout}), problems


def _on_point(design: Design, layouts: Mapping[str, AnyLayout], setting: OnPoint) -> _Found:
    sizes = [(cell, _placed_size(design, layouts, cell)) for cell in cells_used(setting)]
    known = [(cell, size) for cell, size in sizes if size is not None]
    problems = [p for cell, size in known for p in _uneven(design, cell, size, known[0][1])]
    if not known:
        problems.append(
            Problem(
                setting.at.key("rows"),
                "size-unknown",
                "a setting on point that holds only fabrics, so nothing says its size",
                "at least one block or unit",
                "make one of the fabrics a unit by the method `plain patch` with its size",
            )
        )
    if problems:
        return {}, problems
    block, step = known[0][1].width, design.measure.step
    sashes, problems = _sashes(design, layouts, setting, block)
    if problems:
        return {}, problems
    pitch = block + (sashes.width if sashes else 0)
    least, stated = least_size(setting, pitch, step), setting.trim_to
    if stated is not None and (stated.width < least.width or stated.height < least.height):
        return {}, [_clipped(design, stated, least)]
    return {setting_name(design): lay_on_point(setting, block, design.seam, step, sashes)}, []


def _sashes(
    design: Design, layouts: Mapping[str, AnyLayout], setting: OnPoint, block: Fraction
) -> tuple[Sashes | None, list[Problem]]:
    """The sashes of a setting on point as they lie between its blocks, if it has any."""
    plain_ones, pieced = setting.sashing, setting.pieced_sashing
    if plain_ones is not None and pieced is not None:
        return None, [_two_sashings(setting)]
    if plain_ones is not None:
        wide = plain_ones.width
        upright = _plain(plain_ones.fabric, Size(wide, block), "upright sash")
        post = plain_ones.cornerstones or plain_ones.fabric
        return Sashes(upright, _plain(post, Size(wide, wide), "cornerstone")), []
    if pieced is None:
        return None, []
    size = _placed_size(design, layouts, pieced.sash)
    if size is None:
        return None, [unsized(pieced.sash)]
    if size.height != block:
        return None, [_sash_length(design, pieced.sash, size.height, block)]
    square = Size(size.width, size.width)
    stone = _plain(pieced.cornerstones, square, "cornerstone")
    return Sashes(placed(pieced.sash, size, "upright sash"), stone), []


def _uneven(design: Design, cell: Cell, size: Size, first: Size) -> Iterator[Problem]:
    show = design.measure.show
    if size.width != size.height:
        yield Problem(
            cell.place,
            "not-square",
            f"`{cell.name}` finishes at {show(size.width)} x {show(size.height)}",
            "square blocks, because on point every block fits on every side",
            f"make it {show(max(size.width, size.height))} square, for instance with a strip of "
            f"{show(abs(size.width - size.height))} along it",
        )
    elif first.width == first.height != size.width:
        yield Problem(
            cell.place,
            "sizes-differ",
            f"`{cell.name}` has a finished side of {show(size.width)}",
            f"{show(first.width)}, as the first block of the setting",
            f"change it by {show(abs(size.width - first.width))}, or place another one",
        )


def _clipped(design: Design, stated: Size, least: Size) -> Problem:
    show = design.measure.show
    return Problem(
        design.setting.at["trim to"],
        "tips-cut-off",
        f"a setting trimmed to {show(stated.width)} x {show(stated.height)}",
        f"at least {show(least.width)} x {show(least.height)}, to leave the blocks' tips whole",
        f"write {show(max(stated.width, least.width))} x "
        f"{show(max(stated.height, least.height))} or more, or delete `trim to`",
    )


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


def _two_sashings(setting: Setting | OnPoint) -> Problem:
    return Problem(
        setting.at.key("pieced sashing"),
        "two-sashings",
        "`sashing` and `pieced sashing`",
        "one of them",
        "delete one; plain cornerstones go with pieced sashes too",
    )


def _sash_faults(
    design: Design, layouts: Mapping[str, AnyLayout], layout: Layout, sashing: PiecedSashing
) -> Iterator[Problem]:
    """Sashes must be as long as every block's side, cornerstones as wide as the sashes."""
    show = design.measure.show
    sash = _placed_size(design, layouts, sashing.sash)
    if sash is None:
        yield unsized(sashing.sash)
        return
    post = _placed_size(design, layouts, sashing.cornerstones)
    if post is not None and (post.width, post.height) != (sash.width, sash.width):
        yield Problem(
            sashing.cornerstones.place,
            "sizes-differ",
            f"`{sashing.cornerstones.name}` finishes at {show(post.width)} x {show(post.height)}",
            f"{show(sash.width)} square, as wide as the sashes",
            f"make it {show(sash.width)} square, or use a fabric",
        )
    sides = [*(row[0].size.height for row in layout.rows), *(c.size.width for c in layout.rows[0])]
    for side in dict.fromkeys(sides):
        if side != sash.height:
            yield _sash_length(design, sashing.sash, sash.height, side)


def _sash_length(design: Design, sash: Cell, length: Fraction, side: Fraction) -> Problem:
    show = design.measure.show
    return Problem(
        sash.place,
        "sizes-differ",
        f"`{sash.name}` is {show(length)} long, the side of a block {show(side)}",
        "sashes as long as the blocks' sides",
        f"make it {show(side)} long, {show(abs(side - length))} "
        f"{'more' if side > length else 'less'}",
    )


def _with_pieced_sashing(
    design: Design, layouts: Mapping[str, AnyLayout], layout: Layout, sashing: PiecedSashing
) -> Layout:
    size = _placed_size(design, layouts, sashing.sash) or Size(Fraction(1), Fraction(1))
    upright = placed(sashing.sash, size, "sash")
    post = placed(sashing.cornerstones, Size(size.width, size.width), "cornerstone")
    place = sashing.place
    sashed = [_interleave(row, upright, place) for row in layout.rows]
    level = _interleave([turned(upright, 1) for _ in layout.rows[0]], post, place)
    return Layout(_interleave(sashed, level, place))


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
