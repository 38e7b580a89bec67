"""What a customer's own seam does to this pattern, as data for her page.

In: a design, its publication (proved) and its tips. Out: a `SeamCheck`: the three strips that she
sews to learn her own seam, what comes of four seams, and which seams ask for most care. Sizes and
clearances come off the bench, which `bench.wandering` describes with all it assumes.

Three strips of width c sewn side by side with a seam s are 3c - 4s wide, the middle one shows
c - 2s. Strips of six seams give 14 and 4 seams: 1 1/2 in give 3 1/2 and 1 in, as seam tests have
it (check values 101 and 102: SEAM).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.error import Outcome, SizeOut, Yardstick, outcomes, yardstick
from pieceproof.bench.often import sewn_often
from pieceproof.bench.ranking import SeamEffect, ranked_seams
from pieceproof.bench.table import Flat
from pieceproof.lengths import Number, magnitude
from pieceproof.methods.method import SET_B
from pieceproof.model import Design, Measure
from pieceproof.published import Make, MakeKind, Publication
from pieceproof.tips import TipGroup, Tips

LISTED: Mapping[Measure, tuple[Fraction, ...]] = {
    # A seam a little scant, true, a little wide and much too wide: common practice.
    Measure.INCH: (Fraction(-1, 16), Fraction(0), Fraction(1, 16), Fraction(1, 8)),
    Measure.CENTIMETRE: (Fraction(-3, 20), Fraction(0), Fraction(3, 20), Fraction(3, 10)),
}
ERRORS: Mapping[Measure, tuple[Fraction, ...]] = {
    # All between them, so far apart that three strips differ by 1/8 in or 2 mm on the ruler.
    Measure.INCH: tuple(Fraction(n, 32) for n in range(-2, 5)),
    Measure.CENTIMETRE: tuple(Fraction(n, 20) for n in range(-3, 7)),
}
_A_LITTLE_WIDE = 2
_SEED = 1908


@dataclass(frozen=True)
class TipRow:
    """Tips that are alike and their clearance now; None where their patch has gone."""

    group: TipGroup
    clearance: Number | None

    @property
    def is_lost(self) -> bool:
        """Whole as published, cut off now."""
        return self.group.clearance >= 0 and (self.clearance is None or self.clearance < 0)


@dataclass(frozen=True)
class Fit:
    """A piece or row that no longer fits, at worst: too long by ``excess``, negative: too short.

    ``make`` is what it is sewn to, ``what`` its letter or name, or all in its row.
    """

    make: str
    what: str
    excess: Number


@dataclass(frozen=True)
class SeamRow:
    """What comes of one seam.

    ``three`` strips are then so wide together and the ``middle`` one shows so much. ``sizes`` are
    those of the blocks (of the units where there are no blocks) and of the top, unfinished.
    ``things`` are the units and blocks as they come off the bench, by name. ``out_of_line`` is how
    far seams miss each other that should meet. ``not_followed`` are makes taken as published.
    """

    own: Fraction
    error: Fraction
    three: Fraction
    middle: Fraction
    sizes: tuple[SizeOut, ...]
    tips: tuple[TipRow, ...]
    fits: tuple[Fit, ...]
    out_of_line: Number
    not_followed: tuple[str, ...]
    things: Mapping[str, Flat]

    @property
    def lost(self) -> tuple[TipRow, ...]:
        """Tips that are cut off by this seam only."""
        return tuple(tip for tip in self.tips if tip.is_lost)

    def change_of(self, make: str) -> Number:
        """The larger change of a listed make's width or height."""
        return next(size.change for size in self.sizes if size.make == make)


@dataclass(frozen=True)
class Uneven:
    """A block sewn many times, each seam off by chance; ``whole``: how often all tips were."""

    make: str
    deviation: Fraction
    repeats: int
    whole: int
    widths: tuple[Number, Number]
    heights: tuple[Number, Number]


@dataclass(frozen=True)
class SeamCheck:
    """The test and its outcome. ``strip`` is cut so wide; ``rows`` go from scant to wide.

    ``seams`` are all groups of seams, those that ask for most care first, each alone off by
    ``error``. ``uneven`` is empty where the writer asks for no seams off by chance.
    """

    strip: Fraction
    rows: tuple[SeamRow, ...]
    listed: tuple[SeamRow, ...]
    error: Fraction
    seams: tuple[SeamEffect, ...]
    uneven: tuple[Uneven, ...]

    @property
    def true(self) -> SeamRow:
        """The row of the pattern's own seam."""
        return next(row for row in self.rows if row.error == 0)


def seam_check(design: Design, publication: Publication, tips: Tips) -> SeamCheck:
    """The seam test of one size; only for seams that leave something to sew."""
    errors = [e for e in ERRORS[design.measure] if publication.seam + e > 0]
    strip = 6 * publication.seam
    bench = yardstick(publication)
    rows = tuple(_row(publication, tips, strip, found) for found in outcomes(bench, errors))
    error = LISTED[design.measure][_A_LITTLE_WIDE]
    return SeamCheck(
        strip,
        rows,
        tuple(row for row in rows if row.error in LISTED[design.measure]),
        error,
        ranked_seams(bench, error),
        tuple(_uneven(design, bench)),
    )


def own_seam(strip: Fraction, three: Fraction) -> Fraction:
    """The seam by which three strips of this width measure ``three`` together."""
    return (3 * strip - three) / 4


def _uneven(design: Design, bench: Yardstick) -> Iterator[Uneven]:
    """Every block (unit, where there are no blocks) that the bench can follow."""
    if design.uneven_seams is None:
        return
    deviation, repeats = design.uneven_seams.deviation, design.uneven_seams.repeats
    for make in _small(bench.room.publication):
        if bench.plain[make.name].is_followed:
            found = sewn_often(bench, make, deviation, repeats, _SEED)
            widths, heights = _range(found.widths), _range(found.heights)
            yield Uneven(make.name, deviation, repeats, found.whole, widths, heights)


def _range(values: Sequence[Number]) -> tuple[Number, Number]:
    return min(values), max(values)


def _small(publication: Publication) -> tuple[Make, ...]:
    """The blocks; the units where there are none."""
    kinds = {make.kind for make in publication.makes}
    small = MakeKind.BLOCK if MakeKind.BLOCK in kinds else MakeKind.UNIT
    sewn = (make for make in publication.makes if make.kind is small)
    return tuple(make for make in sewn if not make.name.endswith(SET_B))


def _row(publication: Publication, tips: Tips, strip: Fraction, found: Outcome) -> SeamRow:
    own = publication.seam + found.error
    return SeamRow(
        own,
        found.error,
        3 * strip - 4 * own,
        strip - 2 * own,
        tuple(_sizes(publication, found)),
        tuple(_tips(tips, found)),
        tuple(_worst(found)),
        max((line.by for line in found.lines), default=Fraction(0)),
        found.not_followed,
        {name: thing for name, thing in found.things.items() if thing.faces},
    )


def _sizes(publication: Publication, found: Outcome) -> Iterator[SizeOut]:
    top = publication.makes[-1]
    for make in (*_small(publication), *((top,) if top.kind is MakeKind.TOP else ())):
        yield found.size(make.name)


def _tips(tips: Tips, found: Outcome) -> Iterator[TipRow]:
    """The tips of units; those of blocks are the same tips."""
    for group in tips.groups:
        now = [
            tip.clearance
            for tip in found.tips
            if tip.make == group.make
            and (tip.spot.fabric, tip.spot.clearance) == (group.fabric, group.clearance)
        ]
        if now:
            seen = [clearance for clearance in now if clearance is not None]
            yield TipRow(group, min(seen) if len(seen) == len(now) else None)


def _worst(found: Outcome) -> Iterable[Fit]:
    """For each piece or row that does not fit its make, the largest difference."""
    worst: dict[tuple[str, str], Fit] = {}
    for fit in found.fits:
        known = worst.get((fit.make, fit.what))
        if known is None or magnitude(fit.excess) > magnitude(known.excess):
            worst[fit.make, fit.what] = Fit(fit.make, fit.what, fit.excess)
    return worst.values()
