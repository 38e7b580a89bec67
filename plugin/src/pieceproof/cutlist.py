"""One size's cutting list at one width, as text or as data for other programs.

In: a size and a usable width. Out: lines, or plain lists and words ready for JSON. Each part that
a fabric plays is listed by itself; what one cloth of a colourway saves is on the page.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.compile import Sized
from pieceproof.cut_words import cuts_sentence
from pieceproof.instructions import show_length
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.pages.cutting import Row, RowKind, cutting_rows
from pieceproof.print_words import print_words
from pieceproof.requirements import Need

Data: TypeAlias = "dict[str, Data] | list[Data] | str | int | None"


def cut_list_text(sized: Sized, width: Fraction) -> str:
    """The list as lines of text."""
    design = sized.design
    lines = [f"{design.name}, {design.label}, usable width {show_length(design.measure, width)}"]
    for need in _needs(sized, width):
        called = ", ".join(design.fabrics[fabric].called for fabric in need.fabrics)
        lines += ["", f"{called}: {_buy(need)}"]
        prints = (w for f in need.fabrics for w in print_words(design.measure, design.fabrics[f]))
        lines += (f"  planned for {words}" for words in prints)
        lines += (_line(row) for row in cutting_rows(sized, need))
        lines.append(f"  {cuts_sentence(need.cuts)}")
    return "\n".join(lines)


def cut_list_data(sized: Sized, width: Fraction) -> Data:
    """The list as data; lengths are exact fractions in the pattern's unit, such as ``7/2``."""
    publication = sized.publication
    return {
        "pattern": publication.slug,
        "size": publication.size,
        "unit": publication.measure,
        "usable width": str(width),
        "pieces": [
            {
                "letter": piece.letter,
                "fabric": piece.fabric,
                "count": piece.count,
                "short side": str(piece.short),
                "long side": str(piece.long),
            }
            for piece in publication.pieces
        ],
        "fabrics": [
            {
                "fabric": need.fabrics[0],
                "yards": str(need.yards),
                "metres": str(need.metres),
                "cuts": {
                    kind.replace("_", " "): count for kind, count in asdict(need.cuts).items()
                },
                "strips": [
                    {
                        "count": strip.count,
                        "width": str(strip.height),
                        "cross-cuts": [
                            {
                                "count": segment.count,
                                "length": str(segment.length),
                                "pieces": [
                                    {"letter": cut.letter, "count": cut.count}
                                    for cut in segment.cuts
                                ],
                            }
                            for segment in strip.segments
                        ],
                    }
                    for strip in need.plan.strips
                ],
            }
            for need in _needs(sized, width)
        ],
    }


def _needs(sized: Sized, width: Fraction) -> Iterator[Need]:
    """Every part alone."""
    for need in sized.requirements.needs:
        if need.usable_width == width and len(need.fabrics) == 1:
            yield need


def _buy(need: Need) -> str:
    return f"{show_fraction(need.yards)} yd or {show_decimal(need.metres)} m"


def _line(row: Row) -> str:
    match row.kind:
        case RowKind.WHOLE:
            return f"  {row.count} x {row.size} of the whole width, for the backing"
        case RowKind.FUSSY:
            return f"  a length of {row.size}, the whole width, for pieces with a motif"
        case RowKind.STRIP:
            return f"  {_many(row.count, 'strip')} {row.size} x width of cloth"
        case RowKind.SHARE:
            return f"    from {row.count} of these strips:"
        case RowKind.PIECE:
            crosses = (
                f"; {_many(cross.count, 'cross-cut')} of {cross.length}, "
                + ("then trimmed" if cross.pieces == 1 else f"{cross.pieces} out of each")
                for cross in row.cross_cuts
            )
            note = f"; {row.note}" if row.note else ""
            return (
                f"    {row.letter or row.called} ({row.count}) {row.size}{note}{''.join(crosses)}"
            )
        case RowKind.PART:
            return f"    {row.letter or row.called} ({row.count}) {row.size} long, to be joined"
        case RowKind.JOIN:
            name = row.letter or row.called
            return f"    {name} ({row.count}) {row.size} long, strips joined {row.note}"


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"
