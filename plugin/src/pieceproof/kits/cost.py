"""What a batch costs and sells for, from the shop's own figures.

In: the book, how many kits, the cloth and the passes they take. Out: lines that add up, or the
names of the figures that the shop has not stated. Every line is rounded up to a hundredth of the
shop's money, and sums are those of the lines as they are printed. Nothing here is advice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.kits.book import Book, SoldBy, cloth_named
from pieceproof.lengths import ceil_to
from pieceproof.model import Measure
from pieceproof.requirements import CM_PER_INCH

HUNDREDTH = Fraction(1, 100)
PATTERN, WORK = "pattern", "work"

_IN_UNIT: Mapping[tuple[SoldBy, Measure], Fraction] = {
    # One yard or metre in the pattern's unit; the yard is 36 in, the inch 2.54 cm (1959).
    (SoldBy.YARD, Measure.INCH): Fraction(36),
    (SoldBy.YARD, Measure.CENTIMETRE): 36 * CM_PER_INCH,
    (SoldBy.METRE, Measure.INCH): 100 / CM_PER_INCH,
    (SoldBy.METRE, Measure.CENTIMETRE): Fraction(100),
}


@dataclass(frozen=True)
class Used:
    """Cloth that a batch uses up, squaring and ends included, in the pattern's unit."""

    cloth: str
    length: Fraction


@dataclass(frozen=True)
class CostLine:
    """``quantity`` of something at ``rate``, for the whole batch; ``unit`` may be empty."""

    words: str
    quantity: Fraction
    unit: str
    rate: Fraction
    amount: Fraction


@dataclass(frozen=True)
class Price:
    """From the lines to the price: ``costs`` + ``overhead`` + ``margin`` = ``batch``.

    ``each`` is the price of one kit before tax, rounded up.
    """

    costs: Fraction
    overhead: Fraction
    margin: Fraction
    batch: Fraction
    each: Fraction


@dataclass(frozen=True)
class Cost:
    """What is known of the cost; no price is worked out while anything is missing."""

    lines: tuple[CostLine, ...]
    missing: tuple[str, ...]
    price: Price | None


def cost(
    book: Book, pattern: str, kits: int, cloths: Sequence[Used], measure: Measure, passes: int
) -> Cost:
    """The cost sheet of a batch."""
    lines = (
        *_cloth_lines(book, cloths, measure),
        *_pattern_lines(book, pattern, kits),
        *_packing_lines(book, kits),
        *_work_lines(book, kits, passes),
    )
    missing = tuple(_missing(book, pattern, [used.cloth for used in cloths]))
    return Cost(lines, missing, None if missing else _price(book, lines, kits))


def in_pattern_unit(amount: Fraction, book: Book, measure: Measure) -> Fraction:
    """Yards or metres, as the shop has them, in the pattern's unit."""
    return amount * _IN_UNIT[book.sold_by, measure]


def in_shop_unit(length: Fraction, book: Book, measure: Measure) -> Fraction:
    """A length of the pattern in the shop's yards or metres."""
    return length / _IN_UNIT[book.sold_by, measure]


def _cloth_lines(book: Book, cloths: Sequence[Used], measure: Measure) -> Iterator[CostLine]:
    for used in cloths:
        stocked = cloth_named(book, used.cloth)
        if stocked is not None and stocked.price is not None:
            length = in_shop_unit(used.length, book, measure)
            yield _line(used.cloth, length, book.sold_by.value, stocked.price.value)


def _pattern_lines(book: Book, pattern: str, kits: int) -> Iterator[CostLine]:
    if pattern in book.pattern_prices:
        yield _line(PATTERN, Fraction(kits), "", book.pattern_prices[pattern].value)


def _packing_lines(book: Book, kits: int) -> Iterator[CostLine]:
    for item in book.packing or ():
        yield _line(item.name, Fraction(kits), "", item.each.value)


def _work_lines(book: Book, kits: int, passes: int) -> Iterator[CostLine]:
    if book.minutes is None or book.wage is None:
        return
    once, each_pass, each_kit = (
        part.value for part in (book.minutes.once, book.minutes.each_pass, book.minutes.each_kit)
    )
    minutes = once + passes * each_pass + kits * each_kit
    yield _line(WORK, minutes / 60, "hour", book.wage.value)


def _line(words: str, quantity: Fraction, unit: str, rate: Fraction) -> CostLine:
    return CostLine(words, quantity, unit, rate, ceil_to(quantity * rate, HUNDREDTH))


def _missing(book: Book, pattern: str, cloths: Iterable[str]) -> Iterator[str]:
    """The names of what the shop has not stated, as they stand in its file."""
    if book.currency is None:
        yield "`currency`"
    for name in cloths:
        stocked = cloth_named(book, name)
        if stocked is None or stocked.price is None:
            yield f"`price` of the cloth {name}"
    if pattern not in book.pattern_prices:
        yield f"`pattern prices` of {pattern}"
    stated = (
        ("packing", book.packing),
        ("minutes", book.minutes),
        ("wage", book.wage),
        ("overhead", book.overhead),
        ("margin", book.margin),
    )
    yield from (f"`{name}`" for name, value in stated if value is None)


def _price(book: Book, lines: Sequence[CostLine], kits: int) -> Price | None:
    if book.overhead is None or book.margin is None:
        return None
    costs = sum((line.amount for line in lines), Fraction(0))
    overhead = ceil_to(costs * book.overhead.value / 100, HUNDREDTH)
    batch = ceil_to((costs + overhead) / (1 - book.margin.value / 100), HUNDREDTH)
    margin = batch - costs - overhead
    return Price(costs, overhead, margin, batch, ceil_to(batch / kits, HUNDREDTH))
