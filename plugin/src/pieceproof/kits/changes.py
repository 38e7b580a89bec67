"""What differs when a cloth stands in for another.

In: the sheet with the pattern's own cloths, the sheet with the cloths really used, the pattern and
its prose. Out: words, labels, pictures and lengths that change. Whether the
new cloth suits is for the shop's eyes; the lightness of both is given to help them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.colours import luminance
from pieceproof.compile import Pattern
from pieceproof.kits.orders import Unknown, found
from pieceproof.kits.outdated import Outdated, cloth_of, outdated
from pieceproof.kits.sheet import ClothSheet, KitSheet, kit_sheet
from pieceproof.model import Design


@dataclass(frozen=True)
class Replaced:
    """A part that another cloth plays. Lightness is CIE L*, 0 to 100, to the nearest whole."""

    called: str
    before: str
    after: str
    before_colour: str
    after_colour: str
    before_lightness: int
    after_lightness: int
    letters: tuple[str, ...]


@dataclass(frozen=True)
class Passage:
    """A line of the prose, or the summary, that names the cloth or the colourway."""

    file: str
    line: int
    word: str
    text: str


@dataclass(frozen=True)
class Length:
    """What a batch takes of a cloth before and after, in the pattern's unit; 0 for nothing."""

    cloth: str
    before: Fraction
    after: Fraction


@dataclass(frozen=True)
class Changes:
    """Everything that differs. ``outdated`` shows or names the old cloths."""

    parts: tuple[Replaced, ...]
    passages: tuple[Passage, ...]
    outdated: Outdated
    lengths: tuple[Length, ...]
    prices: tuple[Fraction, Fraction] | None
    """Of one kit, before and after; None where the shop has not stated all that they take."""


def changes_of(
    sheet: KitSheet, pattern: Pattern, lines: Mapping[str, Sequence[str]]
) -> Changes | None:
    """What the sheet's substitutes change; None where nothing does.

    ``lines`` are those of the pattern's files; only its prose is read.
    """
    order = replace(sheet.ordered.order, instead=())
    plain = found(order, pattern, sheet.book)
    if isinstance(plain, Unknown) or plain.design == sheet.ordered.design:
        return None
    before, _ = kit_sheet(plain, sheet.book)
    prose = {file: text for file, text in lines.items() if file.endswith(".md")}
    if before is None:
        return None
    return _changes(before, sheet, outdated(pattern, plain, sheet.ordered), prose)


def _changes(
    before: KitSheet, after: KitSheet, old: Outdated, texts: Mapping[str, Sequence[str]]
) -> Changes:
    """``texts`` are the lines of the pattern's prose by file."""
    parts = tuple(_replaced(before, after))
    names = dict.fromkeys([*(part.before for part in parts), _colourway(before.ordered.design)])
    prose = (p for file, lines in texts.items() for p in _passages(file, lines, tuple(names)))
    return Changes(
        parts,
        (*_in_summary(before.ordered.design, names), *prose),
        old,
        tuple(_lengths(before, after)),
        (before.cost.price.each, after.cost.price.each)
        if before.cost.price and after.cost.price
        else None,
    )


def _replaced(before: KitSheet, after: KitSheet) -> Iterator[Replaced]:
    old, new = before.ordered.design, after.ordered.design
    for fabric, part in old.fabrics.items():
        first, second = cloth_of(old, fabric), cloth_of(new, fabric)
        letters = [
            parcel.letter
            for sheet in before.cloths
            for parcel in sheet.cloth.parcels
            if parcel.fabric == fabric
        ]
        if (first.name, first.colour) != (second.name, second.colour):
            yield Replaced(
                part.called,
                first.name,
                second.name,
                str(first.colour),
                str(second.colour),
                _lightness(str(first.colour)),
                _lightness(str(second.colour)),
                tuple(dict.fromkeys(letters)),
            )


def _colourway(design: Design) -> str:
    (way,) = design.colourways.values()
    return way.name


def _lightness(colour: str) -> int:
    """CIE L* of an sRGB colour (CIE 15:2004, 8.2.1.1)."""
    y = luminance(colour)
    root = y ** (1 / 3) if y > (6 / 29) ** 3 else y * (29 / 6) ** 2 / 3 + 4 / 29
    return round(float(116 * root - 16))


def _in_summary(design: Design, names: Iterable[str]) -> Iterator[Passage]:
    place, text = design.at["summary"], " ".join(design.summary.split())
    for name in names:
        if name.casefold() in text.casefold():
            yield Passage(place.file, place.line, name, text)


def _passages(file: str, lines: Sequence[str], names: tuple[str, ...]) -> Iterator[Passage]:
    for number, line in enumerate(lines, 1):
        for name in names:
            if name.casefold() in line.casefold():
                yield Passage(file, number, name, line.strip())


def _lengths(before: KitSheet, after: KitSheet) -> Iterator[Length]:
    old, new = _used(before.cloths), _used(after.cloths)
    for name in dict.fromkeys([*old, *new]):
        first, second = old.get(name, Fraction(0)), new.get(name, Fraction(0))
        if first != second:
            yield Length(name, first, second)


def _used(cloths: tuple[ClothSheet, ...]) -> Mapping[str, Fraction]:
    """By name; a cloth may come from two kinds of bolt."""
    used: dict[str, Fraction] = {}
    for sheet in cloths:
        used[sheet.cloth.name] = used.get(sheet.cloth.name, Fraction(0)) + sheet.used_up
    return used
