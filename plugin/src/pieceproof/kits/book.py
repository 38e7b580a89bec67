"""What a shop states about its kits: these frozen classes are the format of ``kits.yaml``.

`stock` fills them by their annotations, as `reading` does for a pattern. Nothing is filled in for
a shop that does not say: what is missing is None here and is asked for by name on the sheet.
Lengths of bolts and prices of cloth are by the yard or the metre, as ``sold by`` says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Annotated

from quicktions import Fraction

from pieceproof.model import Amount, AtLeast, AtMost, Colour, Example, Node, ZeroToo

BOOK_FILE = "kits.yaml"
MOST_KITS = 1000
USUAL_LAYERS = 4  # the usual limit for a rotary cutter: common practice
DEAREST = AtMost(1_000_000)


class SoldBy(Enum):
    """The unit in which the shop measures and prices its cloth."""

    YARD = "yard"
    METRE = "metre"


class Included(Enum):
    """What may lie in a kit beside the pieces of the top."""

    BINDING = "binding"
    BACKING = "backing"
    SLEEVE = "sleeve"


@dataclass(frozen=True)
class ShopCloth(Node):
    """A cloth in the shop, known by the name that patterns use."""

    name: Annotated[str, "What the shop calls it", AtMost(60), Example("Morning Mist")]
    price: Annotated[Amount | None, "What one yard or metre costs the shop", DEAREST] = None
    bolts: Annotated[
        tuple[Annotated[Amount, AtMost(1000)], ...] | None,
        "The length of each bolt, in the order in which they are to be used",
        AtMost(60),
    ] = None
    colour: Annotated[
        Colour | None, "Its colour as #rrggbb, where no pattern declares the cloth"
    ] = None


@dataclass(frozen=True)
class Spares(Node):
    """Spare pieces for small patches: some for every so many of a letter, or part of so many."""

    for_every: Annotated[int, "Pieces of one letter that get the spares", AtMost(10_000)]
    up_to_inches: Annotated[Fraction, "Longest side of a piece that gets spares", Example("4")]
    pieces: Annotated[int, "How many spares they get", AtMost(100)] = 1


@dataclass(frozen=True)
class Packing(Node):
    """Something that every bag needs, the bag itself included."""

    name: Annotated[str, "What it is", AtMost(60), Example("paper bag")]
    each: Annotated[Amount, "What it costs for one kit", DEAREST]


@dataclass(frozen=True)
class Minutes(Node):
    """Working time, as the shop has measured it."""

    once: Annotated[Amount, "For setting up, once for the whole batch", AtMost(100_000)]
    each_pass: Annotated[Amount, "For one pass of the blade", AtMost(1000)]
    each_kit: Annotated[Amount, "For counting and packing one kit", AtMost(10_000)]


@dataclass(frozen=True)
class Instead(Node):
    """A cloth that stands in for another, for the whole batch."""

    of: Annotated[str, "The name of the cloth that has run out", AtMost(60), Example("Wet Slate")]
    use: Annotated[str, "The name of the cloth to use", AtMost(60), Example("Deep Channel")]


@dataclass(frozen=True)
class Run(Node):
    """A batch to cut, with a sheet of its own in the shop's part of the site."""

    pattern: Annotated[str, "The pattern's folder", AtMost(60), Example("heron-landing")]
    size: Annotated[str, "The key of the size", AtMost(60), Example("middle")]
    colourway: Annotated[str, "The key of the colourway", AtMost(60), Example("low-water")]
    kits: Annotated[int, "How many kits", AtMost(MOST_KITS)]
    usable_width: Annotated[
        Fraction | None, "Width of the cloth without selvages; the usual one if left out"
    ] = None
    instead: Annotated[
        tuple[Instead, ...], "Cloths that stand in for others", AtLeast(1), AtMost(40)
    ] = ()


@dataclass(frozen=True)
class Book(Node):
    """Everything the shop states."""

    sold_by: Annotated[SoldBy, "The unit of bolts and of prices of cloth"] = SoldBy.YARD
    currency: Annotated[str | None, "What the shop counts money in", AtMost(20)] = None
    layers: Annotated[int, "Most layers of cloth in a stack", AtMost(12)] = USUAL_LAYERS
    includes: Annotated[
        tuple[Included, ...], "What lies in a kit beside the pieces of the top", AtMost(3)
    ] = ()
    spares: Annotated[Spares | None, "Spare pieces for small patches"] = None
    over_inches: Annotated[
        Fraction, "How much longer uncut lengths are cut, such as those of a backing", ZeroToo()
    ] = Fraction(0)
    pile: Annotated[int | None, "Most pieces in one pile; one pile a letter if left out"] = None
    cloths: Annotated[tuple[ShopCloth, ...], "The shop's cloths", AtMost(400)] = ()
    pattern_prices: Annotated[
        Mapping[str, Annotated[Amount, DEAREST]],
        "What one printed pattern costs the shop, by its folder",
        AtMost(400),
        Example("heron-landing"),
    ] = field(default_factory=dict)
    packing: Annotated[
        tuple[Packing, ...] | None, "What every bag needs, the bag included", AtMost(40)
    ] = None
    minutes: Annotated[Minutes | None, "Working time"] = None
    wage: Annotated[Amount | None, "What an hour of work costs the shop", DEAREST] = None
    overhead: Annotated[
        Amount | None, "Rent, light and the rest, in per cent of all costs above", AtMost(1000)
    ] = None
    margin: Annotated[
        Amount | None, "What is to be left of the price before tax, in per cent of it", AtMost(99)
    ] = None
    runs: Annotated[tuple[Run, ...], "Batches with a sheet in the shop's pages", AtMost(60)] = ()


EMPTY = Book()
"""The book of a shop that has stated nothing."""


def cloth_named(book: Book, name: str) -> ShopCloth | None:
    """The shop's entry for a cloth."""
    return next((cloth for cloth in book.cloths if cloth.name == name), None)
