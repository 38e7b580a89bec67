"""Do the names and counts of a pattern make sense?

In: the designs of one file and the problems found so far. Out: problems. Sizes that do not agree
and lengths off the ruler's grid need geometry and are not looked at here.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.borders import border_number
from pieceproof.editions import edition_problems
from pieceproof.forms import told
from pieceproof.house_terms import design_term_problems
from pieceproof.model import (
    BORDER_SEAMS,
    SETTING_SEAMS,
    Cell,
    ClothName,
    Design,
    FabricName,
    Grid,
    Medallion,
    Node,
    OnPoint,
    Rows,
    Setting,
    UnequalColumns,
    UnequalRows,
)
from pieceproof.problems import Place, Problem, nearest
from pieceproof.wording import listed, one_of, quoted, write_instead

MOST_PATCHES = 20_000

RESERVED = ("top", "quilt centre", "side triangle", "corner triangle", SETTING_SEAMS, BORDER_SEAMS)
"""Names that the drawings use themselves, and those of the whole under `pressing`."""

_HIDES_NO_USE = frozenset(
    (
        *("bad-colour", "bad-count", "bad-length", "bad-name", "bad-size", "folder-name"),
        *("reserved-name", "several-documents", "tab", "text-too-long", "unknown-value"),
    )
)
"""Reading problems after which every use of a name is still seen."""


def check_designs(
    designs: Sequence[Design], found_so_far: Sequence[Problem]
) -> tuple[Problem, ...]:
    """Problems of names and counts, in the order of the file, each once for all sizes."""
    problems = [problem for design in designs for problem in _of_one(design, found_so_far)]
    problems += _called_twice(designs)
    if all(problem.code in _HIDES_NO_USE for problem in found_so_far):
        problems += _unused(designs)
    return tuple(sorted(set(problems)))


def _of_one(design: Design, found_so_far: Sequence[Problem]) -> Iterator[Problem]:
    yield from _undeclared(design, found_so_far)
    yield from _clashes(design)
    yield from _gaps(design, found_so_far)
    yield from _unknown_colourways(design)
    yield from _ragged(design)
    yield from _size_lists(design)
    yield from edition_problems(design)
    yield from design_term_problems(design)
    cycles = tuple(_cycles(design))
    yield from cycles or _too_many_patches(design)


@dataclass(frozen=True)
class _Use:
    """A name where it is used, what it should be, and the sections that may declare it."""

    name: str
    place: Place
    what: str
    sections: tuple[str, ...]


def _uses(record: Node) -> Iterator[_Use]:
    for text in told(record):
        if text.kind is Cell:
            sections = ("fabrics", "units", "blocks")
            yield _Use(text.value.name, text.value.place, "cell", sections)
        elif text.kind is FabricName:
            yield _Use(text.value, text.place, "fabric", ("fabrics",))
        elif text.kind is ClothName:
            yield _Use(text.value, text.place, "cloth", ("cloths",))


def _declared(design: Design, sections: Sequence[str]) -> Mapping[str, str]:
    """Names with the section that declares them."""
    return {name: section for section in sections for name in getattr(design, section)}


def _undeclared(design: Design, found_so_far: Sequence[Problem]) -> Iterator[Problem]:
    for use in _uses(design):
        known = _declared(design, use.sections)
        if use.name in known or not use.name:
            continue
        if not all(_was_read(design, section, found_so_far) for section in use.sections):
            continue
        yield _stranger(use, known, _declared(design, ("fabrics", "units", "blocks", "cloths")))


def _was_read(record: Node, key: str, found_so_far: Sequence[Problem]) -> bool:
    """Whether an empty part is empty because its writer says so."""
    spots = (record.at[key], record.at.key(key))
    return bool(getattr(record, key)) or not any(p.place in spots for p in found_so_far)


def _stranger(use: _Use, known: Mapping[str, str], names: Mapping[str, str]) -> Problem:
    section = use.sections[0] if len(use.sections) == 1 else ""
    elsewhere = (
        f"which is one of the {names[use.name]}" if use.name in names else "declared nowhere"
    )
    return Problem(
        use.place,
        "undeclared",
        f"the name {quoted(use.name)}, {elsewhere}",
        f"{'a name under ' + quoted(section) if section else 'a fabric, unit or block'}: "
        + one_of(known),
        write_instead(
            use.name,
            known,
            f"declare it under {quoted(section or 'units')}, or use a name that is declared",
        ),
    )


_PARTS = re.compile(r"(round|column) \d+( strip| end strip| side strip)?")
"""Names that the parts of a setting get."""


def _clashes(design: Design) -> Iterator[Problem]:
    sections = ("fabrics", "units", "blocks")
    for section in sections:
        for name in getattr(design, section):
            place = design.at.key(f"{section}/{name}")
            first = next(s for s in sections if name in getattr(design, s))
            if first != section:
                yield Problem(
                    place,
                    "name-clash",
                    f"{quoted(name)} under {quoted(section)} and under {quoted(first)}",
                    "one name for one thing, because rows of cells use names of all three kinds",
                    "give one of them another name, here and where it is used",
                )
            elif section != "fabrics" and _is_reserved(name):
                yield Problem(
                    place,
                    "reserved-name",
                    f"the name {quoted(name)}",
                    f"a name without a meaning of its own; {quoted(name)} is what a part of a "
                    "quilt is called",
                    "choose another name, here and where it is used",
                )


def _is_reserved(name: str) -> bool:
    return name in RESERVED or bool(_PARTS.fullmatch(name)) or border_number(name) is not None


def _gaps(design: Design, found_so_far: Sequence[Problem]) -> Iterator[Problem]:
    for colourway in design.colourways.values():
        if not _was_read(colourway, "parts", found_so_far):
            continue
        strangers = (part for part in colourway.parts if part not in design.fabrics)
        mistaken = {nearest(part, design.fabrics) for part in strangers}
        missing = [f for f in design.fabrics if f not in colourway.parts and f not in mistaken]
        if missing:
            cloth = next(iter(design.cloths), "cloth")
            yield Problem(
                colourway.at.key("parts"),
                "colourway-gap",
                f"no cloth for {listed(missing)}",
                "a cloth for every fabric of the pattern",
                f"add {quoted(f'{missing[0]}: {cloth}')} to `parts`, with the cloth of your choice",
            )


def _unknown_colourways(design: Design) -> Iterator[Problem]:
    for audition in design.auditions.values():
        name = audition.colourway
        if name is not None and name not in design.colourways and design.colourways:
            yield Problem(
                audition.at["colourway"],
                "audition-colourway",
                f"an audition in the colourway {quoted(name)}",
                one_of(design.colourways),
                write_instead(name, design.colourways, "use one of these, or delete the line"),
            )


def _grids(design: Design) -> Mapping[str, Grid]:
    units = {name: unit for name, unit in design.units.items() if isinstance(unit, Grid)}
    return {**units, **design.blocks}


def _rows(design: Design) -> Iterator[tuple[Rows, Node, str]]:
    setting = design.setting
    if isinstance(setting, Setting | OnPoint):
        yield setting.rows, setting, "rows"
    if isinstance(setting, OnPoint):
        yield setting.alternates, setting, "alternates"
    for grid in _grids(design).values():
        yield grid.rows, grid, "rows"


def _ragged(design: Design) -> Iterator[Problem]:
    for rows, record, key in _rows(design):
        counts = [len(row) for row in rows]
        usual = Counter(counts).most_common(1)[0][0] if counts else 0
        for number, count in enumerate(counts, 1):
            if count != usual and count:
                more = f"add {_cells(usual - count)}" if count < usual else ""
                yield Problem(
                    record.at[f"{key}/{number}"],
                    "ragged-rows",
                    f"{_cells(count)} in row {number}",
                    f"{_cells(usual)}, as in the other rows",
                    f"{more or f'delete {_cells(count - usual)}'}, so that the rows fill the grid",
                )


def _cells(count: int) -> str:
    return "1 cell" if count == 1 else f"{count} cells"


def _size_lists(design: Design) -> Iterator[Problem]:
    for grid in _grids(design).values():
        across = {len(row) for row in grid.rows}
        if grid.columns and across != {len(grid.columns)} and len(across) == 1:
            yield _size_list(grid, "columns", len(grid.columns), *across)
        if grid.heights and grid.rows and len(grid.heights) != len(grid.rows):
            yield _size_list(grid, "heights", len(grid.heights), len(grid.rows))


def _size_list(grid: Grid, key: str, count: int, wanted: int) -> Problem:
    what = "column" if key == "columns" else "row"
    return Problem(
        grid.at[key],
        "lengths-count",
        f"{count} under {quoted(key)}",
        f"{wanted}, one for each {what} of cells",
        f"write {wanted} lengths, or delete {quoted(key)} where units give the sizes",
    )


def _cycles(design: Design) -> Iterator[Problem]:
    """Grids that contain themselves, each circle once."""
    grids = _grids(design)
    done: set[str] = set()

    def visit(name: str, path: tuple[str, ...]) -> Iterator[Problem]:
        for cell in (cell for row in grids[name].rows for cell in row):
            if cell.name in path:
                yield _cycle(cell, path[path.index(cell.name) :])
            elif cell.name in grids and cell.name not in done:
                yield from visit(cell.name, (*path, cell.name))
        done.add(name)

    for name in grids:
        if name not in done:
            yield from visit(name, (name,))


def _cycle(cell: Cell, circle: Sequence[str]) -> Problem:
    return Problem(
        cell.place,
        "endless-grid",
        f"{quoted(circle[0])} inside itself"
        + (f", by way of {listed(circle[1:])}" if len(circle) > 1 else ""),
        "grids that contain only smaller things",
        f"put something else than {quoted(cell.name)} here",
    )


def _too_many_patches(design: Design) -> Iterator[Problem]:
    counts: dict[str, int] = {}
    grids = _grids(design)

    def count(name: str) -> int:
        if name not in counts:
            rows = grids[name].rows if name in grids else ()
            inner = sum(count(cell.name) for row in rows for cell in row)
            counts[name] = inner if name in grids else _unit_patches(design, name)
        return counts[name]

    for name, grid in grids.items():
        yield from _patch_problem(count(name), quoted(name), grid.at.here)
    yield from _patch_problem(_top_patches(design, count), "the top", design.setting.at.here)


def _top_patches(design: Design, count: Callable[[str], int]) -> int:
    """About as many patches as the blocks of the top have; a round may repeat its unit."""
    match design.setting:
        case Setting(rows, across, down):
            return _tiled(rows, across, down, count)
        case OnPoint(rows=rows, across=across, down=down, alternates=alternates):
            full = _tiled(rows, across, down, count)
            return full + _tiled(alternates or rows, across, down, count)
        case UnequalRows(lines) | UnequalColumns(lines):
            return sum(line.times * count(cell.name) for line in lines for cell in line.cells)
        case Medallion(centre):
            return count(centre.name)


def _tiled(motif: Rows, across: int | None, down: int | None, count: Callable[[str], int]) -> int:
    """Patches in a motif repeated until across and down are filled."""
    counts = [[count(cell.name) for cell in row] for row in motif if row]
    if not counts:
        return 0
    rows = (counts[j % len(counts)] for j in range(down or len(counts)))
    return sum(row[i % len(row)] for row in rows for i in range(across or len(counts[0])))


def _unit_patches(design: Design, name: str) -> int:
    """About as many patches as fabrics that the unit names; 1 for a fabric."""
    unit = design.units.get(name)
    return 1 if unit is None else sum(use.what == "fabric" for use in _uses(unit))


def _patch_problem(count: int, what: str, place: Place) -> Iterator[Problem]:
    if count > MOST_PATCHES:
        yield Problem(
            place,
            "too-many-patches",
            f"{count} patches in {what}",
            f"at most {MOST_PATCHES}",
            "check `across` and `down`, and grids inside grids",
        )


def _called_twice(designs: Sequence[Design]) -> Iterator[Problem]:
    for design in designs[:1]:
        yield from _doubles("called", [(f.called, f.at["called"]) for f in design.fabrics.values()])
        yield from _doubles("name", [(c.name, c.at["name"]) for c in design.cloths.values()])
        yield from _doubles("name", [(c.name, c.at["name"]) for c in design.colourways.values()])
    yield from _doubles("label", [(design.label, design.at["label"]) for design in designs])


def _doubles(key: str, texts: Sequence[tuple[str, Place]]) -> Iterator[Problem]:
    seen: dict[str, Place] = {}
    for text, place in texts:
        first = seen.setdefault(text.casefold(), place)
        if text and first != place:
            yield Problem(
                place,
                "called-twice",
                f"{quoted(text)} a second time; the first is in line {first.line}",
                f"a {quoted(key)} that customers cannot mix up with another",
                "change one of the two",
            )


def _unused(designs: Sequence[Design]) -> Iterator[Problem]:
    used = {name for design in designs for name in _all_uses(design)}
    for design in designs:
        for section in ("fabrics", "units", "blocks", "cloths"):
            for name in getattr(design, section):
                if name not in used:
                    yield _idle(design.at.key(f"{section}/{name}"), section, name)


def _all_uses(design: Design) -> Iterator[str]:
    """Names in use, misspelt ones as meant; being given a cloth is no use of a fabric."""
    given = {
        *(way.at.key(f"parts/{part}") for way in design.colourways.values() for part in way.parts),
        *(a.at.key(f"candidates/{p}") for a in design.auditions.values() for p in a.candidates),
    }
    for use in _uses(design):
        if use.place not in given:
            known = _declared(design, use.sections)
            yield use.name if use.name in known else nearest(use.name, known) or ""


def _idle(place: Place, section: str, name: str) -> Problem:
    what = section[:-1]
    where = {
        "fabrics": "a unit, block, sashing, border, binding or backing",
        "units": "a block or the setting",
        "blocks": "the setting or another block",
        "cloths": "a colourway",
    }[section]
    return Problem(
        place,
        "unused",
        f"the {what} {quoted(name)}, used nowhere",
        f"{where} that uses it",
        "use it or delete it",
    )
