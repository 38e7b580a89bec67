"""Numbers and lengths of a sheet as its pages, tables and texts write them.

In: a sheet and one of its values. Out: a word or two. Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from pieceproof.cutting.plan import Cut, Segment, Strip
from pieceproof.demands import standing_of
from pieceproof.instructions import show_length, show_size
from pieceproof.kits.bolts import Share
from pieceproof.kits.book import SoldBy
from pieceproof.kits.contents import END, Parcel, ParcelKind
from pieceproof.kits.cost import in_shop_unit
from pieceproof.kits.passes import Stacking
from pieceproof.kits.sheet import KitSheet
from pieceproof.lengths import show_fraction


def money(amount: Fraction) -> str:
    """A sum in hundredths: ``12.50``; anything finer is a mistake of ours."""
    pence = amount * 100
    if pence.denominator != 1:
        raise ValueError(f"{amount} is no whole number of hundredths")
    return f"{pence.numerator // 100}.{pence.numerator % 100:02}"


def decimal(value: Fraction) -> str:
    """A decimal where one is exact, else a fraction: ``3.25``, ``1/3``."""
    places = next((n for n in range(7) if (value * 10**n).denominator == 1), None)
    if places is None:
        return str(value)
    sign, digits = "-" if value < 0 else "", str(abs(int(value * 10**places)))
    digits = digits.rjust(places + 1, "0")
    return sign + (f"{digits[:-places]}.{digits[-places:]}" if places else digits)


def called(sheet: KitSheet, fabric: str) -> str:
    """What the text calls a part."""
    return sheet.ordered.design.fabrics[fabric].called


def colourway(sheet: KitSheet) -> str:
    """The colourway's name."""
    (way,) = sheet.ordered.design.colourways.values()
    return way.name


def length_words(sheet: KitSheet, length: Fraction) -> str:
    """A length with its unit sign; beyond the ruler's grid rounded down to it."""
    step = sheet.measure.step
    return show_length(sheet.measure, length // step * step)


def sold_words(sheet: KitSheet, length: Fraction) -> str:
    """A length in the shop's yards or metres, rounded up to an eighth or to five hundredths."""
    yards = sheet.book.sold_by.value == "yard"
    step = Fraction(1, 8) if yards else Fraction(1, 20)
    sold = -(-in_shop_unit(length, sheet.book, sheet.measure) // step) * step
    return f"{show_fraction(sold)} yd" if yards else f"{decimal(sold)} m"


def bolt_words(sheet: KitSheet, length: Fraction) -> str:
    """A bolt's length just as the shop has stated it."""
    stated = in_shop_unit(length, sheet.book, sheet.measure)
    yards = sheet.book.sold_by is SoldBy.YARD
    return f"{show_fraction(stated)} yd" if yards else f"{decimal(stated)} m"


def stock_words(sheet: KitSheet, length: Fraction) -> str:
    """A length that is there, in yards or metres, rounded down."""
    yards = sheet.book.sold_by.value == "yard"
    step = Fraction(1, 8) if yards else Fraction(1, 20)
    there = in_shop_unit(length, sheet.book, sheet.measure) // step * step
    return f"{show_fraction(there)} yd" if yards else f"{decimal(there)} m"


def shares_words(shares: Sequence[Share]) -> str:
    """``12 of strip 1, 3 of strip 2``."""
    return ", ".join(f"{share.count} of strip {share.strip + 1}" for share in shares)


def sub_cuts(sheet: KitSheet, strip: Strip) -> str:
    """What is cut from one strip: ``14 A at 3"``, from the squared end on."""
    return "; ".join(
        _cut_words(sheet, strip, segment, cut) for segment in strip.segments for cut in segment.cuts
    )


def _cut_words(sheet: KitSheet, strip: Strip, segment: Segment, cut: Cut) -> str:
    words = f"{segment.count * cut.count} {cut.letter} at {length_words(sheet, segment.length)}"
    along = length_words(sheet, cut.along)
    if sum(other.count for other in segment.cuts) > 1:
        return f"{words}, {cut.count} of {along} from each cut"
    return words if cut.along == strip.height else f"{words} trimmed to {along}"


def parcel_size(sheet: KitSheet, parcel: Parcel) -> str:
    """A parcel's size, short side first."""
    return show_size(sheet.measure, *sorted((parcel.across, parcel.along)))


def stack_words(stacking: Stacking) -> str:
    """``4 stacks of 4 layers, 1 of 2``; strips that stay whole are not stacked."""
    if not stacking.passes:
        return "left whole"
    piled = [(stacking.full, stacking.layers), (1, stacking.last)]
    (first, layers), *rest = [(stacks, layers) for stacks, layers in piled if stacks and layers]
    start = f"{many(first, 'stack')} of {many(layers, 'layer')}"
    return ", ".join([start, *(f"{stacks} of {layers}" for stacks, layers in rest)])


def parcel_kind(parcel: Parcel) -> str:
    """What a parcel holds, where it is no piece of the cutting list."""
    if parcel.kind is ParcelKind.PIECE:
        return standing_of(parcel.key)
    return "end strip" if parcel.key == parcel.letter + END else parcel.kind.value


def many(count: int, noun: str) -> str:
    """``1 kit``, ``12 kits``, ``2 passes``."""
    plural = "es" if noun.endswith("s") else "s"
    return f"{count} {noun}{'' if count == 1 else plural}"
