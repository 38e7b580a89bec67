"""The cutting list of one cloth at one width: strips, then what is cut from them.

In: a size and a need. Out: rows in cutting order. Everything in them is read off the plan.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from quicktions import Fraction

from pieceproof.backs import BackPlan
from pieceproof.compile import Sized
from pieceproof.cutting.plan import Joined, Segment, Setting, Strip, pieces_cut, settings
from pieceproof.demands import BINDING, SLEEVE, letter_of, standing_of
from pieceproof.fussy import Fussy
from pieceproof.instructions import show_length, show_size
from pieceproof.model import Design, Print
from pieceproof.published import Piece
from pieceproof.requirements import Need


class RowKind(Enum):
    """What a row says to cut."""

    WHOLE = "whole"
    """Lengths of the whole cloth, for the back."""
    STRIP = "strip"
    """Strips across the cloth."""
    SHARE = "share"
    """Some of the strips just cut."""
    PIECE = "piece"
    """Pieces from those strips."""
    PART = "part"
    """Lengths of strip that are joined later."""
    JOIN = "join"
    """Strips sewn end to end, and lengths cut from the run."""
    FUSSY = "fussy"
    """Pieces that each show one motif, from a length of the whole cloth."""


@dataclass(frozen=True)
class CrossCut:
    """Cuts across a strip that give more than one piece each, or need a trim."""

    count: int
    length: str
    pieces: int


@dataclass(frozen=True)
class Row:
    """One row; ``total`` is set where a letter's pieces come from several rows.

    ``called`` names the part that the piece plays where the cloth plays several. ``note`` says
    how a print has to lie, or how strips are joined.
    """

    kind: RowKind
    count: int
    size: str
    letter: str = ""
    called: str = ""
    note: str = ""
    total: int | None = None
    cross_cuts: tuple[CrossCut, ...] = ()


@dataclass(frozen=True)
class _Table:
    """What all rows of one cloth are made from."""

    design: Design
    need: Need
    pieces: Mapping[str, Piece]


def cutting_rows(sized: Sized, need: Need) -> tuple[Row, ...]:
    """The rows of one cloth."""
    table = _Table(sized.design, need, {p.letter: p for p in sized.publication.pieces})
    backs = [_back_row(table, need.backs.chosen)] if need.backs else []
    strips = (row for setting in settings(need.plan) for row in _setting_rows(table, setting))
    joins = (_join_row(table, joined) for joined in need.plan.joined)
    motifs = (row for fussy in need.fussy for row in _fussy_rows(table, fussy))
    return (*backs, *motifs, *strips, *joins)


def _back_row(table: _Table, back: BackPlan) -> Row:
    size = show_length(table.design.measure, back.length)
    return Row(RowKind.WHOLE, back.lengths, size)


def _fussy_rows(table: _Table, fussy: Fussy) -> Iterator[Row]:
    measure = table.design.measure
    yield Row(RowKind.FUSSY, 1, show_length(measure, fussy.length), note="motifs")
    yield Row(
        RowKind.PIECE,
        fussy.count,
        show_size(measure, fussy.across, fussy.along) + _by_template(table, fussy.letter),
        *_letter_and_called(table, fussy.letter),
        f"a motif in the middle of each: {_abreast(table, fussy)}in {_rows_of(table, fussy)}",
    )


def _abreast(table: _Table, fussy: Fussy) -> str:
    abreast = min(fussy.abreast, fussy.count)
    if abreast == 1:
        return ""
    far = show_length(table.design.measure, fussy.apart_across)
    return f"{abreast} side by side, {far} from middle to middle, "


def _rows_of(table: _Table, fussy: Fussy) -> str:
    if fussy.rows == 1:
        return "one row"
    return f"{fussy.rows} rows {show_length(table.design.measure, fussy.apart_along)} apart"


def _setting_rows(table: _Table, setting: Setting) -> Iterator[Row]:
    """Strips of one height. Where they are cut up differently, every kind has its own rows."""
    yield Row(RowKind.STRIP, setting.count, show_length(table.design.measure, setting.height))
    letters = _letters(setting.strips)
    if len(letters) == 1:
        if not _is_joined(table, letters[0]):
            yield _piece_row(table, setting.strips, letters[0])
        return
    for strip in setting.strips:
        if len(setting.strips) > 1:
            yield Row(RowKind.SHARE, strip.count, "")
        for letter in _letters([strip]):
            if _is_joined(table, letter):
                yield from _part_rows(table, strip, letter)
            else:
                yield _piece_row(table, [strip], letter)


def _piece_row(table: _Table, strips: Sequence[Strip], letter: str) -> Row:
    across, along = _sides(table, letter)
    count = sum(_count(strip, letter) for strip in strips)
    total = pieces_cut(table.need.plan)[letter]
    return Row(
        RowKind.PIECE,
        count,
        show_size(table.design.measure, across, along) + _by_template(table, letter),
        *_letter_and_called(table, letter),
        _print_note(table, letter),
        None if count == total else total,
        tuple(_cross_cuts(table, strips, letter)),
    )


def _sides(table: _Table, letter: str) -> tuple[Fraction, Fraction]:
    """The size as listed; of a directional print as it lies on the cloth, across it first."""
    piece = table.pieces.get(letter_of(letter))
    if piece is not None and table.design.fabrics[piece.fabric].print is Print.ANY:
        return piece.short, piece.long
    demand = table.need.demand
    wants = {want.letter: (want.across, want.along) for want in demand.wants}
    crosswise = {n.letter: (n.length, n.width) for n in demand.longs if n.way == "crosswise"}
    lengthwise = {n.letter: (n.width, n.length) for n in demand.longs if n.way == "lengthwise"}
    return {**wants, **crosswise, **lengthwise}[letter]


def _print_note(table: _Table, letter: str) -> str:
    """How a directional print runs, and which way up the pieces end."""
    piece = table.pieces.get(letter_of(letter))
    if piece is None:
        return ""
    longs = (n for n in table.need.demand.longs if n.letter == letter)
    along = any(n.way == "lengthwise" for n in longs)
    if table.design.fabrics[piece.fabric].print is Print.ANY:
        return "whole, along the selvage" if along else ""
    if piece.short == piece.long:
        return "mark the top edge of the print"
    across = show_length(table.design.measure, _sides(table, letter)[0])
    ends = f"; they end {standing_of(letter)}" if standing_of(letter) else ""
    return f"print along the selvage: {across} across the cloth{ends}"


def _by_template(table: _Table, letter: str) -> str:
    piece = table.pieces.get(letter_of(letter))
    return ", then by template" if piece and piece.template else ""


def _part_rows(table: _Table, strip: Strip, letter: str) -> Iterator[Row]:
    for segment in strip.segments:
        count = strip.count * _in_segment(segment, letter)
        if count:
            length = show_length(table.design.measure, segment.length)
            yield Row(RowKind.PART, count, length, *_letter_and_called(table, letter))


def _is_joined(table: _Table, letter: str) -> bool:
    return any(run.letter == letter for run in table.need.plan.joined)


def _letter_and_called(table: _Table, letter: str) -> tuple[str, str]:
    if letter in (BINDING, SLEEVE):
        return "", letter
    piece = table.pieces[letter_of(letter)]
    called = table.design.fabrics[piece.fabric].called
    return piece.letter, called if len(table.need.fabrics) > 1 else ""


def _cross_cuts(table: _Table, strips: Iterable[Strip], letter: str) -> Iterator[CrossCut]:
    for strip in strips:
        for segment in strip.segments:
            cut = next((cut for cut in segment.cuts if cut.letter == letter), None)
            if cut is not None and (cut.count > 1 or cut.along < strip.height):
                length = show_length(table.design.measure, segment.length)
                yield CrossCut(strip.count * segment.count, length, cut.count)


def _join_row(table: _Table, joined: Joined) -> Row:
    length = show_length(table.design.measure, joined.length)
    seams = "on the diagonal" if joined.join == "diagonal" else "with straight seams"
    return Row(RowKind.JOIN, joined.count, length, *_letter_and_called(table, joined.letter), seams)


def _letters(strips: Iterable[Strip]) -> tuple[str, ...]:
    """Letters in the order in which they are cut."""
    return tuple(
        dict.fromkeys(
            cut.letter for strip in strips for segment in strip.segments for cut in segment.cuts
        )
    )


def _count(strip: Strip, letter: str) -> int:
    return strip.count * sum(_in_segment(segment, letter) for segment in strip.segments)


def _in_segment(segment: Segment, letter: str) -> int:
    return segment.count * sum(cut.count for cut in segment.cuts if cut.letter == letter)
