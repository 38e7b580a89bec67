"""A sheet as lines of text, for reading in a terminal.

In: a sheet. Out: its text. The same numbers are on the pages.
"""

from __future__ import annotations

from collections.abc import Iterator

from pieceproof.kits.changes import Changes
from pieceproof.kits.sheet import ClothSheet, KitSheet
from pieceproof.kits.words import (
    bolt_words,
    colourway,
    decimal,
    length_words,
    many,
    money,
    parcel_kind,
    parcel_size,
    shares_words,
    sold_words,
    stack_words,
    stock_words,
    sub_cuts,
)


def sheet_text(sheet: KitSheet, changes: Changes | None) -> str:
    """The sheet for reading in a terminal."""
    return "\n".join([*_lines(sheet), *(_change_lines(sheet, changes) if changes else ())])


def _lines(sheet: KitSheet) -> Iterator[str]:
    design, passes = sheet.ordered.design, sum(cloth.work.passes for cloth in sheet.cloths)
    yield (
        f"{design.name}, {design.label}, {colourway(sheet)}: "
        f"{many(sheet.kits, 'kit')}, usable width {length_words(sheet, sheet.width)}"
    )
    if sheet.left_out:
        yield f"Not in the kit: {', '.join(sheet.left_out)}"
    for cloth in sheet.cloths:
        yield ""
        yield from _cloth_lines(sheet, cloth)
    yield ""
    if sheet.first_out:
        yield f"Runs out first: {', '.join(sheet.first_out)}, after {many(_fewest(sheet), 'kit')}"
    yield f"Passes of the blade: {passes}, in stacks of at most {sheet.book.layers} layers"
    yield f"Labels: {len(sheet.piles)} for piles, {len(sheet.bags)} for bags"
    yield ""
    yield from _cost_lines(sheet)


def _cloth_lines(sheet: KitSheet, cloth: ClothSheet) -> Iterator[str]:
    plan = cloth.batch.plan
    yield f"{cloth.cloth.name}: {sold_words(sheet, cloth.used_up)}, ends and squaring included"
    for parcel in cloth.cloth.parcels:
        spare = f" + {parcel.spare} spare" if parcel.spare else ""
        kind = f" ({words})" if (words := parcel_kind(parcel)) else ""
        yield (
            f"  {parcel.letter} {parcel_size(sheet, parcel)}{kind}: {parcel.count}{spare} a kit, "
            f"{parcel.each_bag * sheet.kits} in all"
        )
    for stacking, strip in zip(cloth.work.stackings, plan.strips, strict=True):
        height, passes = length_words(sheet, strip.height), stacking.stacks * stacking.passes
        yield (
            f"  strip {stacking.strip + 1}: {strip.count} x {height}, "
            f"each {sub_cuts(sheet, strip)}; {stack_words(stacking)}"
            + (f", {many(passes, 'pass')}" if passes else "")
        )
    if cloth.gain.per_cent:
        saved = decimal(cloth.gain.per_cent)
        yield f"  planned together saves {saved} % against kits planned one by one"
    if cloth.rolls is None or cloth.reach is None:
        yield f"  how far it goes is not known: state `bolts` of {cloth.cloth.name}"
        return
    for bolt in cloth.rolls.bolts:
        lost, left = (
            f"{length_words(sheet, bolt.rest)} lost",
            f"{stock_words(sheet, bolt.rest)} left",
        )
        length = bolt_words(sheet, bolt.length)
        yield f"  bolt {bolt.number}, {length}: {shares_words(bolt.shares) or 'not needed'}; " + (
            f"{lost} at its end" if bolt.is_end else left
        )
    if cloth.rolls.lacking:
        yield f"  NO BOLT FOR {shares_words(cloth.rolls.lacking)}"
    yield f"  its bolts make {cloth.reach.kits} kits"


def _fewest(sheet: KitSheet) -> int:
    return min(cloth.reach.kits for cloth in sheet.cloths if cloth.reach is not None)


def _cost_lines(sheet: KitSheet) -> Iterator[str]:
    for line in sheet.cost.lines:
        yield f"{line.words}: {money(line.amount)} {sheet.book.currency or ''}".rstrip()
    if sheet.cost.missing:
        yield f"No price: the shop has not stated {', '.join(sheet.cost.missing)}"
    if sheet.cost.price is not None:
        price = sheet.cost.price
        for words, amount in (
            ("costs", price.costs),
            ("overhead", price.overhead),
            ("margin", price.margin),
            ("price of the batch", price.batch),
            ("price of one kit", price.each),
        ):
            yield f"{words}: {money(amount)} {sheet.book.currency}"


def _change_lines(sheet: KitSheet, changes: Changes) -> Iterator[str]:
    yield ""
    yield "Changes against the pattern's own cloths:"
    for part in changes.parts:
        light = f"lightness {part.before_lightness} to {part.after_lightness}"
        labels = f"; labels {', '.join(part.letters)}" if part.letters else ""
        yield f"  {part.called}: {part.before} becomes {part.after}, {light}{labels}"
    for passage in changes.passages:
        yield f"  {passage.file}:{passage.line} names {passage.word}: {passage.text}"
    if not changes.passages:
        yield "  no line of the prose names the cloths or the colourway"
    for length in changes.lengths:
        before, after = (sold_words(sheet, n) for n in (length.before, length.after))
        yield f"  {length.cloth}: {before} becomes {after}"
    if changes.prices is not None:
        was, becomes = (money(price) for price in changes.prices)
        yield f"  price of one kit: {was} becomes {becomes} {sheet.book.currency}"
    old = changes.outdated
    for what, names in (
        ("pictures beside the pattern's page", old.pictures),
        ("pages", old.pages),
        ("booklets", old.booklets),
    ):
        yield f"  {what} that show the old cloths:{'' if names else ' none'}"
        yield from (f"    {name}" for name in names)
