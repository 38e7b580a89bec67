"""A pattern redrawn for another block size or in centimetres, as the text of a new file.

In: a pattern's file and its designs. Out: the file with every finished size scaled in its place, so
that remarks and order stay, and what leaves the ruler's grid. Seams and what is customary are not
scaled; in centimetres they are what metric shops use, on the ruler. Cut sizes are never scaled:
they are worked out again. What holds for the old design only (its release, trials, expectations) is
left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, islice

from quicktions import Fraction

from pieceproof.forms import Told, told
from pieceproof.layout import lay_out
from pieceproof.lengths import ceil_to
from pieceproof.model import Cell, Design, Measure, Node, Position, Size
from pieceproof.source import ListNode, MapNode, TextNode, read_source
from pieceproof.source import Node as Source

REDRAFT = Fraction(5, 2)
"""Centimetres for an inch: common practice redraws a block of 12 in as one of 30 cm."""

METRIC_SEAM = Fraction(3, 4)
"""Centimetres, common practice."""

LEFT_OUT = ("release", "trials", "expect")
_SEARCHED = 400
_NOT_DRAWN = ("extra", "oversize")
"""Keys of lengths that are there for the sewing and not for the looks."""


@dataclass(frozen=True)
class Redraft:
    """What finished sizes are multiplied by, and the unit of the new file."""

    factor: Fraction
    measure: Measure


@dataclass(frozen=True)
class Resized:
    """The new file; sizes off the grid as written, and the nearest block sizes with none.

    ``rounded`` are customary lengths before and after they were put on the ruler's grid.
    """

    text: str
    block: Fraction
    rounded: tuple[tuple[str, str], ...]
    off_grid: tuple[str, ...]
    nearest: tuple[Fraction, ...]


def block_of(design: Design) -> Fraction:
    """The finished width of the first thing in the setting that has a size of its own."""
    layouts, _ = lay_out(design)
    grids = [
        t.value.name for t in told(design.setting) if t.kind is Cell and t.value.name in layouts
    ]
    if grids:
        return layouts[grids[0]].size.width
    units = [t.value.name for t in told(design.setting) if t.kind is Cell]
    sizes = (
        t.value for name in units for t in told(design.units[name]) if t.kind in (Fraction, Size)
    )
    first = next(sizes)
    return first.width if isinstance(first, Size) else first


def resize(file: str, data: bytes, designs: Sequence[Design], redraft: Redraft) -> Resized:
    """The whole pattern scaled; the file has no problems."""
    tree, _, _ = read_source(file, data)
    assert tree is not None
    scaled = {t.place: t for design in designs for t in _finished(design)}
    kept = {t.place: t for design in designs for t in _customary(design)}
    words = {
        place: _words(_times(t.value, redraft.factor), redraft.measure)
        for place, t in scaled.items()
    }
    rounded: dict[tuple[str, str], None] = {}
    if redraft.measure is not designs[0].measure:
        for place, item in kept.items():
            exact = _times(item.value, REDRAFT)
            words[place] = _words(_on_the_ruler(exact, redraft.measure), redraft.measure)
            rounded[_words(exact, redraft.measure), words[place]] = None
        words[designs[0].at["measure"]] = redraft.measure.value
        words[designs[0].at["seam"]] = redraft.measure.show(METRIC_SEAM)
    lines = data.decode("utf-8-sig").replace("\r\n", "\n").split("\n")
    for text in sorted(_texts(tree), key=lambda node: node.place, reverse=True):
        if text.place in words:
            row, at = text.place.line - 1, text.place.column - 1
            line = lines[row]
            lines[row] = line[:at] + line[at:].replace(text.text, words[text.place], 1)
    block = block_of(designs[0])
    lengths = [side for t in scaled.values() for side in _sides(t)]
    off = [words[place] for place, t in scaled.items() if _off(_sides(t), redraft)]
    near = _nearest(lengths, block, redraft) if off else ()
    whole = "\n".join(_without(tree, lines)).rstrip("\n") + "\n"
    changed = tuple(pair for pair in rounded if pair[0] != pair[1])
    return Resized(whole, block * redraft.factor, changed, tuple(dict.fromkeys(off)), near)


def _finished(design: Design) -> Iterator[Told]:
    """The finished sizes of a design, which make its looks."""
    for record in _parts(design):
        kept = {record.at.of.get(key) for key in _NOT_DRAWN}
        yield from (t for t in _lengths(record) if t.place not in kept)


def _customary(design: Design) -> Iterator[Told]:
    """Lengths that do not grow with the design, such as the width of a binding."""
    drawn = {t.place for t in _finished(design)}
    apart = {design.at["seam"], *(t.place for trial in design.trials for t in told(trial))}
    yield from (t for t in _lengths(design) if t.place not in drawn | apart)


def _parts(design: Design) -> tuple[Node, ...]:
    units, blocks = design.units.values(), design.blocks.values()
    return (*units, *blocks, design.setting, *design.borders)


def _lengths(record: Node) -> Iterator[Told]:
    yield from (text for text in told(record) if text.kind in (Fraction, Size, Position))


def _texts(node: Source) -> Iterator[TextNode]:
    if isinstance(node, TextNode):
        yield node
    elif isinstance(node, ListNode):
        for item in node.items:
            yield from _texts(item)
    elif isinstance(node, MapNode):
        for entry in node.entries:
            yield from _texts(entry.value)


def _times(value: object, factor: Fraction) -> Fraction | Size | Position:
    match value:
        case Size(width, height):
            return Size(width * factor, height * factor)
        case Position(across, down):
            return Position(across * factor, down * factor)
    assert isinstance(value, Fraction)
    return value * factor


def _on_the_ruler(
    value: Fraction | Size | Position, measure: Measure
) -> Fraction | Size | Position:
    """The next length that a ruler shows: what goes round or hangs over an edge still does."""
    match value:
        case Size(width, height):
            return Size(ceil_to(width, measure.step), ceil_to(height, measure.step))
        case Position():
            return value
    return ceil_to(value, measure.step)


def _words(value: Fraction | Size | Position, measure: Measure) -> str:
    match value:
        case Size(width, height):
            return f"{measure.show(width)} x {measure.show(height)}"
        case Position(across, down):
            return f"{measure.show(across)} across {measure.show(down)} down"
    return measure.show(value)


def _sides(told_length: Told) -> tuple[Fraction, ...]:
    """What is cut or trimmed on the ruler's grid; points inside a unit need not be on it."""
    match told_length.value:
        case Size(width, height):
            return (width, height)
        case Position():
            return ()
    return (told_length.value,)


def _off(lengths: Sequence[Fraction], redraft: Redraft) -> bool:
    return any(
        (length * redraft.factor / redraft.measure.step).denominator != 1 for length in lengths
    )


def _nearest(
    lengths: Sequence[Fraction], block: Fraction, redraft: Redraft
) -> tuple[Fraction, ...]:
    """The next smaller and the next larger block with every size on the grid."""
    step, goal = redraft.measure.step, block * redraft.factor
    first = goal // step * step

    def fits(size: Fraction) -> bool:
        return size > 0 and not _off(lengths, Redraft(size / block, redraft.measure))

    below = (first - n * step for n in range(_SEARCHED))
    above = (first + n * step for n in islice(count(1), _SEARCHED))
    return tuple(
        size for size in (next(filter(fits, below), None), next(filter(fits, above), None)) if size
    )


def _without(tree: MapNode, lines: Sequence[str]) -> Iterator[str]:
    """The lines without the keys that hold for the old design only."""
    starts: Mapping[int, str] = {e.key_place.line: e.key for e in tree.entries}
    kept = True
    for number, line in enumerate(lines, 1):
        if number in starts:
            kept = starts[number] not in LEFT_OUT
        if kept:
            yield line
