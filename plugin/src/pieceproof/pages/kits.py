"""The page of one batch of kits: for the cutting table, for the packing bench, and for paper.

In: a sheet that was proved, what its substitutes change, and the drawings' subject. Out: a `Page`
and the files beside it. Everything is decided here; templates only lay out what they are given.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pieceproof.diagrams.legible import scale_of
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.photographed import photographed
from pieceproof.diagrams.strips import strip_alone
from pieceproof.diagrams.subject import Subject
from pieceproof.diagrams.tops import top
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.kits.bolts import Bolt
from pieceproof.kits.changes import Changes
from pieceproof.kits.labels import Pile
from pieceproof.kits.orders import Order
from pieceproof.kits.sheet import ClothSheet, KitSheet
from pieceproof.kits.words import (
    bolt_words,
    called,
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
from pieceproof.model import Design, FabricName
from pieceproof.pages.head import finished_size
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.pictures import Pictured, pictured
from pieceproof.pages.tokens import token, width_token
from pieceproof.swatches import Print

STRIPS_PX = 360
TOP_PX = 900
HALF_A_SHEET = 12
"""Lines of pieces in a bag's list of which two stand on Letter paper."""
_WIDE_SIZE, _WIDE_CLOTH = 30, 40
"""Letters of a size and of a cloth in one line of that list; more may take two."""


@dataclass(frozen=True)
class Swatch:
    """A cloth as labels show it: its colour, its value from 1 to 5 as a hatch, its name.

    ``photograph`` is a file beside the page, "" where there is none.
    """

    name: str
    colour: str
    hatch: int
    photograph: str


@dataclass(frozen=True)
class BoltRow:
    """One bolt: what to cut from it, in words; ``left`` is what stays, ``end`` whether for good."""

    number: int
    length: str
    cut: str
    left: str
    is_end: bool


@dataclass(frozen=True)
class StripRow:
    """Equal strips: how many, how high, how stacked, what is cut from each, one drawn."""

    number: int
    count: int
    height: str
    stacks: str
    cuts: str
    passes: int
    picture: Pictured


@dataclass(frozen=True)
class ClothPart:
    """One cloth on the page. ``makes`` is how many kits its bolts make, "" where not known."""

    anchor: str
    swatch: Swatch
    called: str
    width: str
    used: str
    saved: str
    makes: str
    bolts: tuple[BoltRow, ...]
    lacking: str
    strips: tuple[StripRow, ...]
    passes: int


@dataclass(frozen=True)
class PackRow:
    """One line of the packing list, for a bag and for the batch."""

    swatch: Swatch
    letter: str
    called: str
    kind: str
    size: str
    count: int
    spare: int
    each_bag: int
    batch: int
    piles: int


@dataclass(frozen=True)
class PileLabel:
    """A pile's label; a short ``letter`` is printed large."""

    swatch: Swatch
    letter: str
    kind: str
    size: str
    number: int
    of: int
    count: int
    each_bag: int


@dataclass(frozen=True)
class Made:
    """A batch as it goes on the site: page, files beside it by name, and its line in the list."""

    order: Order
    page: Page
    files: Mapping[str, bytes]
    words: str
    state: str


def folder_of(order: Order) -> str:
    """The folder of an order's page; different orders have different ones."""
    width = f"-{width_token(order.width)}-wide" if order.width else ""
    swaps = "".join(f"-{_plain(use)}" for _, use in order.instead)
    start = f"{order.pattern}-{token(order.size)}-{token(order.colourway)}-{order.kits}"
    return f"{start}{width}{swaps}"


def made(
    sheet: KitSheet,
    changes: Changes | None,
    subject: Subject,
    prints: Mapping[str, Print],
    index: str,
) -> Made:
    """The page of a sheet; ``index`` is the address of the list of batches from there."""
    order, design = sheet.ordered.order, sheet.ordered.design
    colours = palette(design, order.colourway)
    cover, cover_svg = _top(subject, design, order.colourway, prints, "top")
    before, before_svg = _top(
        subject, sheet.ordered.sized.design, order.colourway, prints, "top-before"
    )
    shown = _prints(sheet, prints)
    drawn = [_strips(cloth, subject, colours, n) for n, cloth in enumerate(sheet.cloths, 1)]
    swatches = [_swatch(cloth, shown) for cloth in sheet.cloths]
    parts = [
        _part(sheet, cloth, swatch, [picture for picture, _ in strips], number)
        for number, (cloth, swatch, strips) in enumerate(
            zip(sheet.cloths, swatches, drawn, strict=True), 1
        )
    ]
    packing = _pack_rows(sheet, swatches)
    words = {
        "title": f"{design.name}: {many(sheet.kits, 'kit')}",
        "index": index,
        "name": design.name,
        "kits": sheet.kits,
        "size": design.label,
        "colourway": colourway(sheet),
        "width": length_words(sheet, sheet.width),
        "finished": finished_size(sheet.ordered.sized),
        "cover": cover,
        "cover_is_wide": cover.width > 2 * cover.height,
        "left_out": _series(sheet.left_out),
        "layers": sheet.book.layers,
        "passes": sum(cloth.work.passes for cloth in sheet.cloths),
        "pieces": sum(p.each_bag for cloth in sheet.cloths for p in cloth.cloth.parcels),
        "first_out": _series(sheet.first_out),
        "makes": min((c.reach.kits for c in sheet.cloths if c.reach is not None), default=None),
        "no_bolts": _series(sheet.no_bolts),
        "short": [part for part in parts if part.lacking],
        "cloths": parts,
        "packing": packing,
        "two_lists": sheet.kits > 1 and sum(map(_lines, packing)) <= HALF_A_SHEET,
        "piles": [_pile_label(sheet, pile, swatches) for pile in sheet.piles],
        "bags": sheet.bags,
        "cost": _cost(sheet),
        "changes": None if changes is None else _changes(sheet, changes),
        "before": before,
    }
    strips = (picture_and_svg for cloth in drawn for picture_and_svg in cloth)
    files = {picture.src: svg for picture, svg in [(cover, cover_svg), *strips]}
    files |= {found.file: found.picture.data for found in shown.values()}
    if changes is not None:
        files[before.src] = before_svg
    return Made(order, render_page("kits.md", words), files, _line(sheet), _state(sheet))


def _line(sheet: KitSheet) -> str:
    design = sheet.ordered.design
    swaps = "".join(f", {use} for {of}" for of, use in sheet.ordered.order.instead)
    return f"{many(sheet.kits, 'kit')} of {design.name}, {design.label}, {colourway(sheet)}{swaps}"


def _state(sheet: KitSheet) -> str:
    lacking = [c.cloth.name for c in sheet.cloths if c.rolls is not None and not c.rolls.is_enough]
    if lacking:
        return f"not enough {_series(lacking)}"
    return f"bolts of {_series(sheet.no_bolts)} not stated" if sheet.no_bolts else "enough cloth"


def _top(
    subject: Subject,
    design: Design,
    colourway: str,
    prints: Mapping[str, Print],
    name: str,
) -> tuple[Pictured, bytes]:
    """The top in the cloths of a design, photographed ones as they are."""
    scene = top(subject)
    photographs = photographed(design, colourway, prints, scale_of(scene, TOP_PX))
    svg = to_svg(scene, Look.COLOUR, name, TOP_PX, palette(design, colourway), photographs)
    return pictured(scene, svg, f"{name}.svg"), svg.encode()


def _drawn(scene: Scene, colours: Mapping[str, str], name: str) -> tuple[Pictured, bytes]:
    svg = to_svg(scene, Look.COLOUR, name, STRIPS_PX, colours)
    return pictured(scene, svg, f"{name}.svg"), svg.encode()


def _strips(
    cloth: ClothSheet,
    subject: Subject,
    colours: Mapping[str, str],
    number: int,
) -> list[tuple[Pictured, bytes]]:
    """Each kind of strip drawn by itself, so that a table of them breaks between pages."""
    plan = cloth.batch.plan
    scenes = (strip_alone(subject, cloth.cloth.fabrics[0], plan, strip) for strip in plan.strips)
    return [
        _drawn(scene, colours, f"cloth-{number}-strip-{at}") for at, scene in enumerate(scenes, 1)
    ]


def _swatch(cloth: ClothSheet, prints: Mapping[FabricName, Print]) -> Swatch:
    """Parts that one cloth plays are of one photograph."""
    found = prints.get(FabricName(cloth.cloth.fabrics[0]))
    file = found.file if found else ""
    return Swatch(cloth.cloth.name, cloth.cloth.colour, cloth.hatch, file)


def _prints(sheet: KitSheet, prints: Mapping[str, Print]) -> Mapping[FabricName, Print]:
    """The photographs of the cloths that are really used, by the parts that they play."""
    parts = sheet.ordered.design.colourways[sheet.ordered.order.colourway].parts
    return {part: prints[cloth] for part, cloth in parts.items() if cloth in prints}


def _part(
    sheet: KitSheet,
    cloth: ClothSheet,
    swatch: Swatch,
    pictures: Sequence[Pictured],
    number: int,
) -> ClothPart:
    strips = zip(cloth.work.stackings, cloth.batch.plan.strips, pictures, strict=True)
    lacking = cloth.rolls.lacking if cloth.rolls is not None else ()
    return ClothPart(
        f"cloth-{number}",
        swatch,
        _series([called(sheet, fabric) for fabric in cloth.cloth.fabrics]),
        length_words(sheet, cloth.cloth.usable_width),
        sold_words(sheet, cloth.used_up),
        f"{decimal(cloth.gain.per_cent)} %" if cloth.gain.per_cent else "",
        "" if cloth.reach is None else str(cloth.reach.kits),
        tuple(_bolt_row(sheet, bolt) for bolt in (cloth.rolls.bolts if cloth.rolls else ())),
        shares_words(lacking),
        tuple(
            StripRow(
                stacking.strip + 1,
                strip.count,
                length_words(sheet, strip.height),
                stack_words(stacking),
                sub_cuts(sheet, strip),
                stacking.stacks * stacking.passes,
                picture,
            )
            for stacking, strip, picture in strips
        ),
        cloth.work.passes,
    )


def _bolt_row(sheet: KitSheet, bolt: Bolt) -> BoltRow:
    return BoltRow(
        bolt.number,
        bolt_words(sheet, bolt.length),
        shares_words(bolt.shares),
        length_words(sheet, bolt.rest) if bolt.is_end else stock_words(sheet, bolt.rest),
        bolt.is_end,
    )


def _pack_rows(sheet: KitSheet, swatches: Sequence[Swatch]) -> list[PackRow]:
    labels = [(pile.cloth, pile.parcel.key) for pile in sheet.piles]
    return [
        PackRow(
            swatches[at],
            parcel.letter,
            called(sheet, parcel.fabric),
            parcel_kind(parcel),
            parcel_size(sheet, parcel),
            parcel.count,
            parcel.spare,
            parcel.each_bag,
            parcel.each_bag * sheet.kits,
            labels.count((at, parcel.key)),
        )
        for at, cloth in enumerate(sheet.cloths)
        for parcel in cloth.cloth.parcels
    ]


def _lines(row: PackRow) -> int:
    size, cloth = f"{row.size} {row.kind}", f"{row.swatch.name} {row.called}"
    return max(-(-len(size) // _WIDE_SIZE), -(-len(cloth) // _WIDE_CLOTH))


def _pile_label(sheet: KitSheet, pile: Pile, swatches: Sequence[Swatch]) -> PileLabel:
    return PileLabel(
        swatches[pile.cloth],
        pile.parcel.letter,
        parcel_kind(pile.parcel),
        parcel_size(sheet, pile.parcel),
        pile.number,
        pile.of,
        pile.count,
        pile.parcel.each_bag,
    )


def _cost(sheet: KitSheet) -> Mapping[str, object]:
    price = sheet.cost.price
    currency = sheet.book.currency or ""
    sums = [] if price is None else [
        ("Costs", money(price.costs)),
        ("Overhead", money(price.overhead)),
        ("Margin", money(price.margin)),
        ("Price of the batch", money(price.batch)),
    ]  # fmt: skip
    return {
        "currency": currency,
        "lines": [
            (line.words, _quantity(sheet, line.words, line.unit), money(line.amount))
            for line in sheet.cost.lines
        ],
        "sums": sums,
        "each": "" if price is None else f"{money(price.each)} {currency}",
        "missing": sheet.cost.missing,
    }


def _quantity(sheet: KitSheet, words: str, unit: str) -> str:
    """How much of it, as a person would say it; the exact figure is in the table for CSV."""
    line = next(line for line in sheet.cost.lines if line.words == words)
    if unit == "hour":
        minutes = -(-line.quantity * 60 // 1)
        return f"{minutes // 60} h {minutes % 60} min"
    if unit:
        used = next(cloth.used_up for cloth in sheet.cloths if cloth.cloth.name == words)
        return sold_words(sheet, used)
    return str(line.quantity)


def _changes(sheet: KitSheet, changes: Changes) -> Mapping[str, object]:
    return {
        "parts": changes.parts,
        "passages": changes.passages,
        "prices": None if changes.prices is None else [money(each) for each in changes.prices],
        "outdated": [
            ("Pictures beside the pattern's page", changes.outdated.pictures),
            ("Pages", changes.outdated.pages),
            ("Booklets", changes.outdated.booklets),
        ],
        "lengths": [
            (n.cloth, sold_words(sheet, n.before), sold_words(sheet, n.after))
            for n in changes.lengths
        ],
    }


def _series(words: Sequence[str]) -> str:
    """``a, b and c``; nothing of nothing."""
    return " and ".join(part for part in (", ".join(words[:-1]), *words[-1:]) if part)


def _plain(name: str) -> str:
    """A name as part of an address."""
    letters = "".join(c if c.isascii() and c.isalnum() else "-" for c in name.casefold())
    return "-".join(part for part in letters.split("-") if part)
