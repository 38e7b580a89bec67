"""How often a cloth is cut, what is left of it, how narrow it may be, other ways, precut cloth.

In: the needs of all sizes and widths. Out: sentences for every choice, and a table of precuts for
each size. Every number is read off the requirements.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.compile import Sized
from pieceproof.cut_words import cuts_sentence
from pieceproof.cutting.yardage import Again
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import Measure
from pieceproof.pages.choices import Axis, Combination, Variant, variants
from pieceproof.pages.tokens import token
from pieceproof.requirements import ROOM, Need, Requirements, need_for, way_of

Notes = tuple[str, ...]

OWN: Mapping[Measure, str] = {Measure.INCH: "yards", Measure.CENTIMETRE: "metres"}
"""How cloth is sold where a pattern's unit is used."""


@dataclass(frozen=True)
class Precuts:
    """A table: kinds of precut cloth with their sizes, and for each part how many of each."""

    kinds: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


def room_notes(
    needs: Mapping[Combination, tuple[Sized, Need]],
) -> Iterator[tuple[Combination, Notes]]:
    """For each size and width, in yards and in metres: cuts, room, narrower cloth, long strips."""
    for choice, (sized, need) in needs.items():
        for unit in ("yards", "metres"):
            notes = (
                cuts_sentence(need.cuts),
                *_room(sized.design.measure, need, unit),
                *_narrower(sized.design.measure, sized.requirements, need, unit),
                *_other_ways(need, unit),
            )
            yield (*choice, unit), notes


def precut_tables(axis: Axis, sizes: Sequence[Sized]) -> tuple[Variant[Precuts], ...]:
    """A table for each size that has any."""
    cases = (((token(s.design.size),), _precuts(s)) for s in sizes if s.precuts)
    return variants((axis,), cases)


def _precuts(sized: Sized) -> Precuts:
    design, found = sized.design, sized.precuts
    sheets = {one.name: one.cut[0].sheet for one in found}
    counts = {(one.fabric, one.name): len(one.cut) for one in found}
    parts = dict.fromkeys(one.fabric for one in found)
    return Precuts(
        tuple((n, show_size(design.measure, s.width, s.length)) for n, s in sheets.items()),
        tuple(
            (design.fabrics[part].called, tuple(str(counts.get((part, n), "–")) for n in sheets))
            for part in parts
        ),
    )


def _room(measure: Measure, need: Need, unit: str) -> Iterator[str]:
    """What is left of the length published in the pattern's own unit; of the other, the least."""
    if unit == OWN[measure]:
        yardage = need.yardage
        left = f"{show_length(measure, yardage.room)} of the length is left when all is cut"
        again = [_strips(measure, entry) for entry in yardage.again if entry.strips]
        yield f"{left}, enough for {_either(again)}." if again else f"{left}."
        more = {spare.letter: spare.from_ends + spare.from_room for spare in yardage.spares}
        yield from _mistakes(more, "the ends of strips and what is left give")
    elif need.plan.strips:
        least = show_length(measure, ROOM[measure])
        yield f"At least {least} of the length is left when all is cut."
        more = {spare.letter: spare.from_ends for spare in need.yardage.spares}
        yield from _mistakes(more, "the ends of strips alone give")


def _strips(measure: Measure, again: Again) -> str:
    strips = "strip" if again.strips == 1 else "strips"
    return f"{again.strips} more {strips} of {show_length(measure, again.height)}"


def _mistakes(more: Mapping[str, int], give: str) -> Iterator[str]:
    """What may go wrong, for each kind of piece by itself."""
    pieces = [f"{count} {key}" for key, count in more.items() if count]
    none = [key for key, count in more.items() if not count]
    if pieces:
        but = f", but no more {_either(none)}" if none else ""
        yield f"Where pieces of one kind only go wrong, {give} {_either(pieces)} more{but}."
    elif none:
        yield f"The ends of strips give no more {_either(none)}: cut these with care."


def _narrower(measure: Measure, requirements: Requirements, need: Need, unit: str) -> Iterator[str]:
    if not need.narrowest:
        return
    fits = f"These cuts fit on cloth down to {show_length(measure, need.narrowest)}"
    narrower = [w for w in requirements.usable_widths if w < need.narrowest]
    if not narrower:
        yield f"{fits}; on narrower cloth count what is missing and cut one more strip for it."
        return
    other = need_for(requirements, need.fabrics, max(narrower))
    width, buy = show_length(measure, max(narrower)), _buy(other, unit)
    same = buy == _buy(need, unit)
    takes = f"the same {buy} is enough" if same else f"it takes {buy} instead of {_buy(need, unit)}"
    yield f"{fits}. If yours is narrower, choose {width} above and cut by that list: {takes}."


def _other_ways(need: Need, unit: str) -> Iterator[str]:
    if need.others:
        others = [f"{_way(other)} it takes {_buy(other, unit)}" for other in need.others]
        yield (
            f"With the long strips cut {_way(need)} this cloth takes {_buy(need, unit)}. "
            f"Cut {_either(others)}."
        )


def _way(need: Need) -> str:
    way = way_of(need)
    if way == "lengthwise":
        return "along the selvage, without joins,"
    return f"across the cloth with {way.removeprefix('crosswise, ')},"


def _buy(need: Need, unit: str) -> str:
    return (
        f"{show_fraction(need.yards)} yd" if unit == "yards" else f"{show_decimal(need.metres)} m"
    )


def _either(words: Iterable[str]) -> str:
    """``a, b or c``."""
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last
