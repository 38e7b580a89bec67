"""A sheet as plain tables, for CSV.

In: a sheet and the name of a table. Out: its rows, or its text as RFC 4180 has it. Lengths are in
the pattern's unit, as decimals wherever a decimal is exact.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from io import StringIO
from typing import TypeAlias

from pieceproof.kits.sheet import KitSheet
from pieceproof.kits.words import called, colourway, decimal, money, shares_words, sub_cuts

Cell: TypeAlias = "str | int"


@dataclass(frozen=True)
class Table:
    """Rows of cells below their heads."""

    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def sheet_csv(sheet: KitSheet, table: str) -> str:
    """One table as RFC 4180 has it: comma, double quotes, lines that end in CR LF."""
    chosen = TABLES[table](sheet)
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(chosen.heads)
    writer.writerows(chosen.rows)
    return out.getvalue()


def packing(sheet: KitSheet) -> Table:
    """What lies in one bag and what the batch holds of it."""
    rows = (
        (
            parcel.letter,
            cloth.cloth.name,
            called(sheet, parcel.fabric),
            parcel.kind.value,
            decimal(parcel.across),
            decimal(parcel.along),
            parcel.count,
            parcel.spare,
            parcel.each_bag,
            parcel.each_bag * sheet.kits,
        )
        for cloth in sheet.cloths
        for parcel in cloth.cloth.parcels
    )
    heads = ("letter", "cloth", "part", "kind", "across", "along")
    return Table((*heads, "pieces", "spares", "each bag", "batch"), tuple(rows))


def strips(sheet: KitSheet) -> Table:
    """Strips to cut, and how they are stacked and cut across."""
    rows = (
        (
            cloth.cloth.name,
            stacking.strip + 1,
            decimal(strip.height),
            strip.count,
            stacking.full,
            stacking.layers,
            stacking.last,
            stacking.passes,
            sub_cuts(sheet, strip),
        )
        for cloth in sheet.cloths
        for stacking, strip in zip(cloth.work.stackings, cloth.batch.plan.strips, strict=True)
    )
    heads = ("cloth", "strip", "height", "strips", "full stacks", "layers", "last stack")
    return Table((*heads, "passes a stack", "cuts"), tuple(rows))


def bolts(sheet: KitSheet) -> Table:
    """What is cut from each bolt, and its end."""
    rows = (
        (
            cloth.cloth.name,
            bolt.number,
            decimal(bolt.length),
            decimal(bolt.squaring),
            decimal(bolt.used),
            decimal(bolt.rest),
            "end" if bolt.is_end else "stays on the bolt",
            shares_words(bolt.shares),
        )
        for cloth in sheet.cloths
        if cloth.rolls is not None
        for bolt in cloth.rolls.bolts
    )
    heads = ("cloth", "bolt", "length", "squaring", "strips", "left", "what is left", "cut")
    return Table(heads, tuple(rows))


def piles(sheet: KitSheet) -> Table:
    """One row for each label of a pile."""
    rows = (
        (
            pile.parcel.letter,
            sheet.cloths[pile.cloth].cloth.name,
            decimal(pile.parcel.across),
            decimal(pile.parcel.along),
            pile.number,
            pile.of,
            pile.count,
            pile.parcel.each_bag,
        )
        for pile in sheet.piles
    )
    heads = ("letter", "cloth", "across", "along", "pile", "of", "pieces", "each bag")
    return Table(heads, tuple(rows))


def bags(sheet: KitSheet) -> Table:
    """One row for each bag's label."""
    design, order = sheet.ordered.design, sheet.ordered.order
    rows = (
        (number, sheet.kits, design.name, design.label, colourway(sheet), order.pattern)
        for number in sheet.bags
    )
    return Table(("bag", "of", "pattern", "size", "colourway", "folder"), tuple(rows))


def costs(sheet: KitSheet) -> Table:
    """Lines of the cost sheet, sums last."""
    price = sheet.cost.price
    lines = tuple(
        (line.words, decimal(line.quantity), line.unit, decimal(line.rate), money(line.amount))
        for line in sheet.cost.lines
    )
    sums = (
        ()
        if price is None
        else (
            ("costs", "", "", "", money(price.costs)),
            ("overhead", "", "", "", money(price.overhead)),
            ("margin", "", "", "", money(price.margin)),
            ("price of the batch", "", "", "", money(price.batch)),
            ("price of one kit", "", "", "", money(price.each)),
        )
    )
    return Table(("what", "quantity", "unit", "rate", "amount"), (*lines, *sums))


TABLES: Mapping[str, Callable[[KitSheet], Table]] = {
    "packing": packing,
    "strips": strips,
    "bolts": bolts,
    "piles": piles,
    "bags": bags,
    "cost": costs,
}
