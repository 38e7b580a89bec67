"""Drawings told in words, for somebody who cannot see them.

In: a subject. Out: sentences: what is where, of which fabric, from the same data as the picture.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from pieceproof.borders import end_name, side_name
from pieceproof.diagrams.subject import (
    Cell,
    Subject,
    called,
    cells_of,
    in_order,
    length,
    make_named,
    piece_of,
    rows_of,
    size,
)
from pieceproof.model import (
    AnyBorder,
    Border,
    MitredBorder,
    PiecedBorder,
    Sashing,
    SashingOnPoint,
    SashingPlace,
)
from pieceproof.published import MakeKind
from pieceproof.steps import Assemble

_NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)  # fmt: skip
_TURNS = (
    "",
    " turned a quarter clockwise",
    " turned upside down",
    " turned a quarter anticlockwise",
)


def number(count: int) -> str:
    """A count in words up to twelve."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def counted(count: int, noun: str) -> str:
    """``one row``, ``five rows``."""
    return f"{number(count)} {noun}" if count == 1 else f"{number(count)} {noun}s"


def series(words: Iterable[str]) -> str:
    """``a, b and c``."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    return text[:1].upper() + text[1:] + "."


def fabrics_named(subject: Subject, fabrics: Iterable[str]) -> str:
    """The fabrics by what the text calls them, in order of use."""
    return series(called(subject, name) for name in in_order(subject, fabrics))


def whole_top(subject: Subject) -> str:
    """The whole top from the middle outwards."""
    design = subject.design
    picture = subject.drawing.pictures[subject.publication.makes[-1].name]
    one_of = f", one of {number(design.quantity)}" if design.quantity > 1 else ""
    borders = enumerate(design.borders, start=1)
    parts = (
        f"{design.kind}{one_of}, {size(subject, picture.width, picture.height)} finished",
        *_setting(subject),
        *(_border(subject, index, border) for index, border in borders),
        f"fabrics: {fabrics_named(subject, {p.fabric for p in picture.patches})}",
    )
    return " ".join(sentence(part) for part in parts)


def cell_words(subject: Subject, cell: Cell) -> str:
    """A cell: ``B (background)`` or ``point turned upside down``."""
    piece = piece_of(subject, cell.source)
    if piece is None:
        return cell.source + _TURNS[cell.turn % 4]
    return f"{piece.letter} ({called(subject, piece.fabric)})"


def rows_in_words(subject: Subject, rows: Sequence[Sequence[Cell]]) -> str:
    """All rows, rows that are alike together, then what the units and blocks in them show."""
    told: dict[str, list[int]] = {}
    for index, row in enumerate(rows, start=1):
        told.setdefault(_row(subject, row), []).append(index)
    lines = [
        f"row{'s' if len(numbers) > 1 else ''} {series(map(str, numbers))}: {text}"
        for text, numbers in told.items()
    ]
    sources = dict.fromkeys(cell.source for row in rows for cell in row if not cell.letter)
    lines += [f"each {source} shows {faces_in_words(subject, source)}" for source in sources]
    return " ".join(sentence(line) for line in lines)


def faces_in_words(subject: Subject, name: str) -> str:
    """Which fabrics a unit or block shows."""
    return fabrics_named(subject, {p.fabric for p in subject.drawing.pictures[name].patches})


def _row(subject: Subject, row: Sequence[Cell]) -> str:
    """The cells from the left; a motif that is repeated is told once."""
    told = [cell_words(subject, cell) for cell in row]
    for period in range(1, len(told) // 2 + 1):
        times, rest = divmod(len(told), period)
        if all(told[i] == told[i % period] for i in range(len(told))):
            after = f", then {series(told[:rest])}" if rest else ""
            return f"{number(times)} times {series(told[:period])}{after}"
    return series(told)


def _setting(subject: Subject) -> Iterable[str]:
    rows = _innermost(subject)
    blocks = [row for row in rows if any(not cell.letter for cell in row)]
    counts = Counter(cell.source for row in blocks for cell in row if not cell.letter)
    if counts:
        across = sum(1 for cell in blocks[0] if not cell.letter)
        what = series(_how_many(subject, source, n) for source, n in counts.items())
        each = f" of {number(across)}" if len(blocks) > 1 else ""
        yield f"{what} in {counted(len(blocks), 'row')}{each}"
    for source in counts:
        yield f"each {source} shows {faces_in_words(subject, source)}"
    if subject.design.setting.sashing:
        yield _sashing(subject, subject.design.setting.sashing)


def _innermost(subject: Subject) -> Sequence[Sequence[Cell]]:
    """The cells of the centre, or of the top itself where no border follows."""
    for make in subject.publication.makes:
        step = rows_of(make)
        if step is not None and make.kind in (MakeKind.CENTRE, MakeKind.TOP):
            return cells_of(subject, step)
    return ()


def _how_many(subject: Subject, source: str, count: int) -> str:
    noun = make_named(subject, source).kind.value
    name = source.removesuffix(f" {noun}")
    return f"{number(count)} {name} {noun}" + ("s" if count > 1 else "")


def _sashing(subject: Subject, sashing: Sashing | SashingOnPoint) -> str:
    inside = isinstance(sashing, Sashing) and sashing.place is SashingPlace.BETWEEN
    where = "between" if inside else "between and around"
    posts = sashing.cornerstones
    stones = f", with cornerstones of {_quoted(subject, posts)}" if posts else ""
    width = length(subject, sashing.width)
    return f"sashing of {_quoted(subject, sashing.fabric)}, {width} wide, {where} them{stones}"


def _border(subject: Subject, index: int, border: AnyBorder) -> str:
    alone = len(subject.design.borders) == 1
    which = "border" if alone else f"border {index} from the inside"
    match border:
        case PiecedBorder():
            return _pieced_border(subject, index, border, which)
        case MitredBorder():
            corners = ", with mitred corners"
        case Border():
            posts = border.cornerstones
            corners = f", with corners of {_quoted(subject, posts)}" if posts else ""
    width = length(subject, border.width)
    return f"{which} of {_quoted(subject, border.fabric)}, {width} wide{corners}"


def _pieced_border(subject: Subject, index: int, border: PiecedBorder, which: str) -> str:
    names = (side_name(index), end_name(index))
    sides = [make_named(subject, name).steps for name in names]
    counts = [len(s.rows[0]) for steps in sides for s in steps if isinstance(s, Assemble)]
    units = series(dict.fromkeys(cell.name for cell in border.units))
    each = f"{counted(counts[0], 'unit')} a side, {number(counts[1] - 2)} along the top"
    wide = make_named(subject, names[0]).height - 2 * subject.publication.seam
    corner = border.corners.name
    fabrics = subject.design.fabrics
    what = _quoted(subject, corner) if corner in fabrics else corner
    return (
        f"{which} pieced from {units}, {length(subject, wide)} wide, {each}, with corners of {what}"
    )


def _quoted(subject: Subject, fabric: str) -> str:
    return f"‘{called(subject, fabric)}’"
