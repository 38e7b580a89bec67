"""Everything that is known about one batch of kits.

In: an order with its design, and the shop's book. Out: a `KitSheet`, or what stops the batch from
being planned, each as one sentence. A sheet is to be shown only when `proof` finds no fault.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.diagrams.subject import values
from pieceproof.kits.batch import Batch, Gain, gain, planned
from pieceproof.kits.bolts import Reach, Rolls, on_bolts, reach
from pieceproof.kits.book import Book, cloth_named
from pieceproof.kits.contents import BagCloth, bag, left_out
from pieceproof.kits.cost import Cost, Used, cost, in_pattern_unit
from pieceproof.kits.labels import Pile, bag_numbers, piles
from pieceproof.kits.orders import Ordered
from pieceproof.kits.passes import Work, work
from pieceproof.model import Measure
from pieceproof.problems import Problem
from pieceproof.requirements import Requirements, requirements, usable_widths


@dataclass(frozen=True)
class ClothSheet:
    """One cloth of a batch. ``hatch`` is its value from 1, the lightest, to 5.

    ``rolls`` and ``reach`` are None where the shop has not stated its bolts.
    """

    batch: Batch
    hatch: int
    gain: Gain
    rolls: Rolls | None
    reach: Reach | None
    work: Work

    @property
    def cloth(self) -> BagCloth:
        """What one bag needs from it."""
        return self.batch.cloth

    @property
    def used_up(self) -> Fraction:
        """Length that the batch takes: strips, squaring, and ends too short for the next strip."""
        plan = self.batch.plan
        if self.rolls is None or not self.rolls.is_enough:
            return plan.length + plan.squaring
        ends = (bolt.rest for bolt in self.rolls.bolts if bolt.is_end)
        spent = (bolt.used + bolt.squaring for bolt in self.rolls.bolts)
        return sum((*spent, *ends), Fraction(0))


@dataclass(frozen=True)
class KitSheet:
    """A batch. ``first_out`` are the cloths whose bolts make the fewest kits."""

    ordered: Ordered
    book: Book
    width: Fraction
    cloths: tuple[ClothSheet, ...]
    left_out: tuple[str, ...]
    piles: tuple[Pile, ...]
    bags: tuple[int, ...]
    first_out: tuple[str, ...]
    no_bolts: tuple[str, ...]
    cost: Cost

    @property
    def kits(self) -> int:
        """How many bags."""
        return self.ordered.order.kits

    @property
    def measure(self) -> Measure:
        """The pattern's unit."""
        return self.ordered.design.measure


def kit_sheet(ordered: Ordered, book: Book) -> tuple[KitSheet | None, tuple[str, ...]]:
    """The sheet of an order."""
    design, publication = ordered.design, ordered.sized.publication
    width = ordered.order.width or usable_widths(design)[0]
    found, problems = _requirements(ordered, width)
    if problems:
        return None, tuple(dict.fromkeys(problem.found for problem in problems))
    motifs = {
        piece.letter
        for piece in publication.pieces
        if design.fabrics[piece.fabric].motif is not None
    }
    if motifs:
        return None, tuple(
            f"{m}: cut motif by motif; kits do not plan that" for m in sorted(motifs)
        )
    contents = bag(design, publication, found, book)
    cloths, sentences = _cloth_sheets(ordered, contents, book)
    if sentences:
        return None, sentences
    reached = {sheet.cloth.name: sheet.reach.kits for sheet in cloths if sheet.reach is not None}
    used = [Used(sheet.cloth.name, sheet.used_up) for sheet in cloths]
    passes = sum(sheet.work.passes for sheet in cloths)
    return KitSheet(
        ordered,
        book,
        width,
        cloths,
        left_out(publication, book),
        piles(contents, ordered.order.kits, book.pile),
        bag_numbers(ordered.order.kits),
        tuple(name for name, kits in reached.items() if kits == min(reached.values())),
        tuple(sheet.cloth.name for sheet in cloths if sheet.reach is None),
        cost(book, ordered.order.pattern, ordered.order.kits, used, design.measure, passes),
    ), ()


def _requirements(ordered: Ordered, width: Fraction) -> tuple[Requirements, tuple[Problem, ...]]:
    """Those that the pattern publishes; planned anew only for other cloth."""
    published = ordered.sized.requirements
    if width in published.usable_widths and not ordered.order.instead:
        return replace(published, usable_widths=(width,)), ()
    return requirements(ordered.design, ordered.sized.publication, (width,))


def _cloth_sheets(
    ordered: Ordered, contents: Sequence[BagCloth], book: Book
) -> tuple[tuple[ClothSheet, ...], tuple[str, ...]]:
    sheets, sentences = [], []
    hatches = values(ordered.design)
    for cloth in contents:
        batch, problems = planned(cloth, ordered.order.kits, ordered.design)
        sentences += [f"{cloth.name}: {problem}" for problem in problems]
        if not problems:
            sheets.append(_cloth_sheet(batch, hatches[cloth.fabrics[0]], book, ordered))
    return tuple(sheets), tuple(sentences)


def _cloth_sheet(batch: Batch, hatch: int, book: Book, ordered: Ordered) -> ClothSheet:
    measure = ordered.design.measure
    alone, _ = planned(batch.cloth, 1, ordered.design)
    lengths = bolts_of(book, batch.cloth.name, measure)
    rolls = None if lengths is None else on_bolts(batch.plan, lengths, measure.step)
    far = None if lengths is None else reach(batch, ordered.design, lengths)
    squared = 1 if rolls is None else max(1, sum(bool(bolt.shares) for bolt in rolls.bolts))
    return ClothSheet(
        batch,
        hatch,
        gain(batch, alone, measure),
        rolls,
        far,
        work(batch.plan, book.layers, squared),
    )


def bolts_of(book: Book, name: str, measure: Measure) -> tuple[Fraction, ...] | None:
    """The shop's bolts of a cloth in the pattern's unit; None where it has not stated them."""
    stocked = cloth_named(book, name)
    if stocked is None or stocked.bolts is None:
        return None
    return tuple(in_pattern_unit(bolt.value, book, measure) for bolt in stocked.bolts)
