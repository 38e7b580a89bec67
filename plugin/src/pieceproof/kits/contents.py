"""What lies in one bag, cloth by cloth.

In: a design of one colourway, its publication, its requirements at one usable width, and the
shop's book. Out: parcels of equal rectangles. A strip that the pattern joins from several is in the
bag as the lengths that the customer joins. Nothing is planned or multiplied here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum

from quicktions import Fraction

from pieceproof.cutting.demand import Long
from pieceproof.cutting.plan import Joined
from pieceproof.demands import BINDING, SLEEVE, Group, letter_of
from pieceproof.kits.book import Book, Included, Spares
from pieceproof.lengths import ceil_to
from pieceproof.model import Design, FabricName, Measure
from pieceproof.published import Publication
from pieceproof.requirements import (
    CM_PER_INCH,
    Need,
    Requirements,
    need_for,
    wide_fabric,
)

BACKING = "backing"
END = " end"
"""Added to a letter, it names the shorter strips that go with its whole ones."""


class ParcelKind(Enum):
    """What is in a parcel."""

    PIECE = "piece"
    STRIP = "strip"
    """Strips, to be joined by the customer or used as they are."""
    UNCUT = "uncut length"
    """The whole width of the cloth."""


@dataclass(frozen=True)
class Parcel:
    """``count`` equal rectangles and ``spare`` more of them in each bag.

    ``letter`` is that of the pattern, or the name of the binding, backing or sleeve; ``key`` is
    unique in the bag. ``across`` lies across the cloth unless the parcel is ``turnable``.
    """

    key: str
    letter: str
    fabric: str
    kind: ParcelKind
    across: Fraction
    along: Fraction
    count: int
    spare: int
    turnable: bool

    @property
    def each_bag(self) -> int:
        """How many lie in a bag."""
        return self.count + self.spare


@dataclass(frozen=True)
class BagCloth:
    """What one bag needs from one cloth; ``fabrics`` are the parts that it plays in the bag."""

    name: str
    colour: str
    fabrics: Group
    usable_width: Fraction
    parcels: tuple[Parcel, ...]


def bag(
    design: Design, publication: Publication, found: Requirements, book: Book
) -> tuple[BagCloth, ...]:
    """Everything in one bag, in order of use; cloths of which it holds nothing are left out."""
    cloths = (_cloth(design, publication, found, group, book) for group in _groups(design, found))
    return tuple(cloth for cloth in cloths if cloth.parcels)


def left_out(publication: Publication, book: Book) -> tuple[str, ...]:
    """What the pattern needs and the bag does not hold."""
    parts = (
        (Included.BINDING in book.includes, publication.binding, BINDING),
        (Included.BACKING in book.includes, publication.backing, BACKING),
        (False, publication.batting, "batting"),
        (Included.SLEEVE in book.includes, publication.sleeve, "hanging sleeve"),
    )
    return tuple(name for held, part, name in parts if part is not None and not held)


def _groups(design: Design, found: Requirements) -> tuple[Group, ...]:
    order = list(design.fabrics)
    groups = [played.fabrics for played in found.played if played.colourway in design.colourways]
    return tuple(sorted(groups, key=lambda group: order.index(group[0])))


def _cloth(
    design: Design, publication: Publication, found: Requirements, group: Group, book: Book
) -> BagCloth:
    (way,) = design.colourways.values()
    cloth = design.cloths[way.parts[FabricName(group[0])]]
    need = need_for(found, group, found.usable_widths[0])
    wide = need.backs is not None and group == (wide_fabric(design),)
    width = need.backs.chosen.width if need.backs and wide else need.usable_width
    parcels = (
        *_pieces(design, publication, need, book),
        *_strips(publication, need, book),
        *_uncut(design, publication, need, book),
    )
    played = {parcel.fabric for parcel in parcels}
    fabrics = tuple(fabric for fabric in group if fabric in played)
    return BagCloth(cloth.name, str(cloth.colour), fabrics, width, parcels)


def _pieces(design: Design, publication: Publication, need: Need, book: Book) -> Iterator[Parcel]:
    for want in need.demand.wants:
        if _is_wanted(want.letter, book):
            is_piece = want.letter not in (BINDING, SLEEVE)
            longest = max(want.across, want.along)
            policy = book.spares if is_piece else None
            yield Parcel(
                want.letter,
                letter_of(want.letter),
                _fabric(publication, want.letter),
                ParcelKind.PIECE if is_piece else ParcelKind.STRIP,
                want.across,
                want.along,
                want.count,
                _spares(policy, design.measure, longest, want.count),
                want.turnable,
            )


def _spares(policy: Spares | None, measure: Measure, longest: Fraction, count: int) -> int:
    """Spares for each ``for every`` pieces begun, of pieces that are small."""
    if policy is None:
        return 0
    limit = in_unit(policy.up_to_inches, measure)
    return -(-count // policy.for_every) * policy.pieces if longest <= limit else 0


def _strips(publication: Publication, need: Need, book: Book) -> Iterator[Parcel]:
    runs = {run.letter: run for run in need.plan.joined}
    for long in need.demand.longs:
        if _is_wanted(long.letter, book):
            fabric = _fabric(publication, long.letter)
            for key, across, along, count in _lengths(long, runs.get(long.letter), need):
                yield Parcel(
                    key,
                    letter_of(long.letter),
                    fabric,
                    ParcelKind.STRIP,
                    across,
                    along,
                    count,
                    0,
                    False,
                )


def _lengths(
    long: Long, run: Joined | None, need: Need
) -> Iterable[tuple[str, Fraction, Fraction, int]]:
    """Key, across, along and count: strips as they lie on the cloth, of one bag."""
    if long.way == "lengthwise":
        return [(long.letter, long.width, long.length, long.count)]
    if run is None:
        return [(long.letter, long.length, long.width, long.count)]
    width = need.plan.width
    last = run.run - (run.strips - 1) * (width - run.loss)
    if last == width:
        return [(long.letter, width, long.width, run.strips)]
    whole = (long.letter, width, long.width, run.strips - 1)
    return [whole, (long.letter + END, last, long.width, 1)]


def _uncut(design: Design, publication: Publication, need: Need, book: Book) -> Iterator[Parcel]:
    """The lengths of the back, cut longer by what the shop gives."""
    backing = publication.backing
    if need.backs is None or backing is None or Included.BACKING not in book.includes:
        return
    way = need.backs.chosen
    over = in_unit(book.over_inches, design.measure)
    width = way.width // publication.step * publication.step
    along = ceil_to(way.length + over, publication.step)
    yield Parcel(
        BACKING, BACKING, backing.fabric, ParcelKind.UNCUT, width, along, way.lengths, 0, False
    )


def in_unit(inches: Fraction, measure: Measure) -> Fraction:
    """Inches in the pattern's unit, exact."""
    return inches if measure is Measure.INCH else inches * CM_PER_INCH


def _is_wanted(letter: str, book: Book) -> bool:
    extras = {BINDING: Included.BINDING, SLEEVE: Included.SLEEVE}
    return letter not in extras or extras[letter] in book.includes


def _fabric(publication: Publication, letter: str) -> str:
    if letter == BINDING and publication.binding is not None:
        return publication.binding.fabric
    if letter == SLEEVE and publication.sleeve is not None:
        return publication.sleeve.fabric
    return next(p.fabric for p in publication.pieces if p.letter == letter_of(letter))
