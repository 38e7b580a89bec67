"""What is asked for: a size, a colourway, how many kits, which cloths stand in for others.

In: an order and a pattern, or a run of the shop's file. Out: the design with the cloths that are
really used, or the word that is not known with those that are. Nothing is planned here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.compile import Pattern, Sized
from pieceproof.kits.book import Book, Run, cloth_named
from pieceproof.model import Cloth, ClothName, Design, FabricName
from pieceproof.problems import Place, Problem
from pieceproof.wording import one_of, quoted, write_instead


@dataclass(frozen=True)
class Order:
    """``kits`` bags of one size in one colourway, cut from cloth of a usable width.

    ``instead`` pairs the name of a cloth with the name of the one that stands in for it.
    """

    pattern: str
    size: str
    colourway: str
    kits: int
    width: Fraction | None = None
    instead: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Unknown:
    """A word of an order that names nothing; ``key`` is the run's key that holds it.

    ``hint`` is another way out, to be said after the known words.
    """

    key: str
    what: str
    word: str
    known: tuple[str, ...]
    hint: str = ""


@dataclass(frozen=True)
class Ordered:
    """An order with its size; in ``design`` the cloths are those really used."""

    order: Order
    sized: Sized
    design: Design


def order_of(run: Run) -> Order:
    """A run of the shop's file as an order."""
    pairs = tuple((instead.of, instead.use) for instead in run.instead)
    return Order(run.pattern, run.size, run.colourway, run.kits, run.usable_width, pairs)


def found(order: Order, pattern: Pattern, book: Book) -> Ordered | Unknown:
    """The order's size and design, or the first word that names nothing."""
    design = ordered_design(order, [sized.design for sized in pattern.sizes], book)
    if isinstance(design, Unknown):
        return design
    sized = next(sized for sized in pattern.sizes if sized.design.size == order.size)
    return Ordered(order, sized, design)


def ordered_design(order: Order, designs: Sequence[Design], book: Book) -> Design | Unknown:
    """The design in its one colourway with the cloths really used; ``designs`` are all sizes."""
    sizes = {design.size: design for design in designs}
    if order.size not in sizes:
        return Unknown("size", "size", order.size, tuple(sizes))
    ways = sizes[order.size].colourways
    if order.colourway not in ways:
        return Unknown("colourway", "colourway", order.colourway, tuple(ways))
    design = _only(sizes[order.size], order.colourway)
    for of, use in order.instead:
        played = [str(design.cloths[cloth].name) for cloth in _played(design)]
        if of not in played:
            return Unknown("instead", "cloth of this colourway", of, tuple(dict.fromkeys(played)))
        cloth = _cloth_called(sizes[order.size], book, use)
        if cloth is None:
            hint = ", or list the cloth under `cloths` with its `colour`"
            known = tuple(_coloured(design, book))
            return Unknown("instead", "cloth with a colour", use, known, hint)
        design = _with_cloth(design, of, cloth)
    return design


def run_problems(book: Book, patterns: Mapping[str, Pattern]) -> Iterator[Problem]:
    """Everything in the shop's file that names nothing."""
    for slug in book.pattern_prices:
        if slug not in patterns:
            place = book.at.key(f"pattern prices/{slug}")
            yield _undeclared(place, Unknown("", "pattern", slug, tuple(patterns)))
    for run in book.runs:
        if run.pattern not in patterns:
            unknown = Unknown("pattern", "pattern", run.pattern, tuple(patterns))
            yield _undeclared(run.at["pattern"], unknown)
            continue
        answer = found(order_of(run), patterns[run.pattern], book)
        if isinstance(answer, Unknown):
            yield _undeclared(run.at[answer.key], answer)


def _undeclared(place: Place, unknown: Unknown) -> Problem:
    return Problem(
        place,
        "undeclared",
        f"the {unknown.what} {quoted(unknown.word)}",
        one_of(unknown.known),
        write_instead(unknown.word, unknown.known, f"choose one of these{unknown.hint}"),
    )


def _only(design: Design, colourway: str) -> Design:
    return replace(design, colourways={colourway: design.colourways[colourway]})


def _played(design: Design) -> Iterable[ClothName]:
    """The cloths of the one colourway, in order of use."""
    (way,) = design.colourways.values()
    return (way.parts[FabricName(fabric)] for fabric in design.fabrics)


def _cloth_called(design: Design, book: Book, name: str) -> Cloth | None:
    """A cloth of the pattern by its name, else one of the shop that has a colour."""
    for cloth in design.cloths.values():
        if cloth.name == name:
            return cloth
    stocked = cloth_named(book, name)
    if stocked is None or stocked.colour is None:
        return None
    return Cloth(name, stocked.colour)


def _coloured(design: Design, book: Book) -> Iterable[str]:
    names = [str(cloth.name) for cloth in design.cloths.values()]
    return dict.fromkeys([*names, *(c.name for c in book.cloths if c.colour is not None)])


def _with_cloth(design: Design, of: str, cloth: Cloth) -> Design:
    """The colourway with the cloth in every part that the other one plays."""
    same = [key for key, known in design.cloths.items() if known.name == cloth.name]
    key = ClothName(same[0] if same else f"in place of {of}")
    ((name, way),) = design.colourways.items()
    parts = {
        part: key if design.cloths[played].name == of else played
        for part, played in way.parts.items()
    }
    return replace(
        design,
        cloths={**design.cloths, key: cloth},
        colourways={name: replace(way, parts=parts)},
    )
