"""Drawings told in words, for somebody who cannot see them.

In: a subject. Out: sentences: what is where, of which fabric, from the same data as the picture.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from pieceproof.diagrams.subject import (
    Cell,
    Subject,
    called,
    cells_of,
    in_order,
    length,
    piece_of,
    rows_of,
    size,
)
from pieceproof.model import Border, Sashing, SashingPlace
from pieceproof.published import MakeKind

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
    return " ".join(
        sentence(part)
        for part in (
            f"{design.kind}, {size(subject, picture.width, picture.height)} finished",
            *_setting(subject),
            *(_border(subject, i, border) for i, border in enumerate(design.borders, start=1)),
            f"fabrics: {fabrics_named(subject, {p.fabric for p in picture.patches})}",
        )
    )


def cell_words(subject: Subject, cell: Cell) -> str:
    """A cell: ``B (background)`` or ``point turned upside down``."""
    piece = piece_of(subject, cell.source)
    if piece is None:
        return cell.source + _TURNS[cell.turn % 4]
    return f"{piece.letter} ({called(subject, piece.fabric)})"


def rows_in_words(subject: Subject, rows: Sequence[Sequence[Cell]]) -> str:
    """All rows, rows that are alike together."""
    told: dict[str, list[int]] = {}
    for index, row in enumerate(rows, start=1):
        told.setdefault(_row(subject, row), []).append(index)
    return " ".join(
        sentence(f"row{'s' if len(numbers) > 1 else ''} {series(map(str, numbers))}: {text}")
        for text, numbers in told.items()
    )


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
    design = subject.design
    make = next(m for m in subject.publication.makes if m.kind in _INNERMOST and rows_of(m))
    step = rows_of(make)
    rows = cells_of(subject, step) if step else []
    blocks = [row for row in rows if any(not cell.letter for cell in row)] or rows
    counts = Counter(cell.source for row in blocks for cell in row if not cell.letter)
    across = sum(1 for cell in blocks[0] if not cell.letter)
    yield (
        f"{series(f'{number(n)} {source}' for source, n in counts.items())}"
        f" in {counted(len(blocks), 'row')} of {number(across)}"
        if counts
        else f"{counted(len(blocks), 'row')} of plain patches"
    )
    for source in counts:
        yield f"each {source} shows {faces_in_words(subject, source)}"
    if design.setting.sashing:
        yield _sashing(subject, design.setting.sashing)


_INNERMOST = (MakeKind.CENTRE, MakeKind.TOP)


def _sashing(subject: Subject, sashing: Sashing) -> str:
    where = "between and around" if sashing.place is SashingPlace.AROUND else "between"
    posts = sashing.cornerstones
    stones = f", with cornerstones of {called(subject, posts)}" if posts else ""
    width = length(subject, sashing.width)
    return f"sashing of {called(subject, sashing.fabric)}, {width} wide, {where} them{stones}"


def _border(subject: Subject, index: int, border: Border) -> str:
    posts = border.cornerstones
    corners = f", with corners of {called(subject, posts)}" if posts else ""
    width = length(subject, border.width)
    count = len(subject.design.borders)
    which = "border" if count == 1 else f"border {index} from the inside"
    return f"{which} of {called(subject, border.fabric)}, {width} wide{corners}"
