"""The methods for a unit compared, as text.

In: a design, its publication and names of units. Out: a table for every unit that several methods
can make. The numbers are those of `compared`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quicktions import Fraction

from pieceproof.compared import Compared, compared, wanted_of
from pieceproof.instructions import show_length
from pieceproof.lengths import ceil_to
from pieceproof.model import Design, Measure
from pieceproof.published import Publication

HEADS = ("method", "cloth", "pieces", "cut apart", "seams", "trims", "bias outside", "spare")
_UNITS = {Measure.INCH: "sq in", Measure.CENTIMETRE: "sq cm"}


def comparison_text(design: Design, publication: Publication, names: Sequence[str]) -> str:
    """Tables one below the other; a sentence where there is nothing to compare."""
    tables = [table for name in names for table in _table(design, publication, name)]
    return "\n\n".join(tables) or "no unit here can be made by more than one method"


def comparison_rows(
    design: Design, publication: Publication, name: str
) -> tuple[tuple[str, ...], ...]:
    """A row under `HEADS` for every method that can make the unit; none where only one can."""
    wanted = wanted_of(publication, name)
    rows = compared(design, name, wanted) if wanted else ()
    if len(rows) < 2:
        return ()
    return tuple((_marked(row), *numbers_of(design.measure, row)) for row in rows)


def _table(design: Design, publication: Publication, name: str) -> Iterator[str]:
    rows = comparison_rows(design, publication, name)
    if not rows:
        return
    cells = [HEADS, *rows]
    widths = [max(len(row[i]) for row in cells) for i in range(len(HEADS))]
    lines = ("  ".join(map(_padded, row, widths)).rstrip() for row in cells)
    wanted = wanted_of(publication, name)
    yield "\n".join([f"{name}, {wanted} wanted", *(f"  {line}" for line in lines)])


def _marked(row: Compared) -> str:
    """The method; ``*`` is the one that the pattern names."""
    return f"{'*' if row.chosen else ' '} {row.method}"


def _padded(text: str, width: int) -> str:
    return text.ljust(width)


def numbers_of(measure: Measure, row: Compared) -> tuple[str, ...]:
    """What stands under `HEADS` behind the method. Areas and bias are rounded up."""
    bias = ceil_to(row.bias, measure.step)
    return (
        f"{ceil_to(row.area, Fraction(1))} {_UNITS[measure]}",
        str(row.pieces),
        str(row.cuts_apart),
        str(row.seams),
        str(row.trims),
        show_length(measure, bias) if bias else "none",
        str(row.spare),
    )
