"""What becomes of the published pieces when seams are too wide or scant.

In: a publication and errors. Out, for each error: sizes, tips, edges that do not fit and joins out
of line. What is assumed stands in `wandering`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from quicktions import Fraction

from pieceproof.bench.points import Spot, followed, spots
from pieceproof.bench.surroundings import CLOCKWISE, Around, Seam, surroundings
from pieceproof.bench.table import Flat
from pieceproof.bench.wandering import Hand, Room, Worked, room_for, taken, work
from pieceproof.lengths import Number, magnitude
from pieceproof.published import Make, Publication


@dataclass(frozen=True)
class SizeOut:
    """The unfinished size of a make as it comes off the table, and the published one."""

    make: str
    width: Number
    height: Number
    wanted_width: Fraction
    wanted_height: Fraction

    @property
    def change(self) -> Number:
        """The larger change, of the width or the height."""
        return max(
            magnitude(self.width - self.wanted_width), magnitude(self.height - self.wanted_height)
        )


@dataclass(frozen=True)
class TipOut:
    """A tip's clearance with the seams as published, and with these; None: its piece is gone."""

    make: str
    spot: Spot
    clearance: Number | None

    @property
    def is_lost(self) -> bool:
        """Whole as published, cut off now."""
        return self.spot.clearance >= 0 and (self.clearance is None or self.clearance < 0)


@dataclass(frozen=True)
class FitOut:
    """An edge that no longer fits: of ``what`` in ``make``, too long by ``excess``."""

    make: str
    step: int
    what: str
    found: Number
    wanted: Number

    @property
    def excess(self) -> Number:
        """Positive: too long; negative: too short."""
        return self.found - self.wanted


@dataclass(frozen=True)
class LineOut:
    """Seams of two neighbouring rows that should meet and miss each other, at most by ``by``."""

    make: str
    upper_row: int
    by: Number


@dataclass(frozen=True)
class Outcome:
    """Everything that comes of one way of sewing.

    ``not_followed`` are makes taken as published. ``things`` is one of each make, unfinished, by
    its name; centres and tops have a size and no faces.
    """

    error: Fraction
    sizes: tuple[SizeOut, ...]
    tips: tuple[TipOut, ...]
    fits: tuple[FitOut, ...]
    lines: tuple[LineOut, ...]
    not_followed: tuple[str, ...]
    things: Mapping[str, Flat]

    def size(self, make: str) -> SizeOut:
        """The size of one make."""
        return next(size for size in self.sizes if size.make == make)


@dataclass(frozen=True)
class Yardstick:
    """What all sewings of one publication are held against."""

    room: Room
    plain: Mapping[str, Worked]
    spots: Mapping[str, tuple[Spot, ...]]
    around: Mapping[str, tuple[Around, ...]]

    @property
    def makes(self) -> tuple[Make, ...]:
        return self.room.publication.makes

    @property
    def seam(self) -> Fraction:
        return self.room.publication.seam


def yardstick(publication: Publication) -> Yardstick:
    """What there is to hold sewings of a publication against; it must be proved."""
    room = room_for(publication)
    reach = 2 * publication.seam
    return Yardstick(
        room,
        work(room, lambda _: Fraction(0)),
        {
            m.name: spots(room.exact[m.name], publication.seam, reach)
            for m in publication.makes
            if m.method
        },
        surroundings(publication),
    )


def outcomes(bench: Yardstick, errors: Sequence[Fraction]) -> tuple[Outcome, ...]:
    """All seams too wide by the same error (negative: scant), for each error."""
    return tuple(_outcome(bench, error) for error in errors)


def _outcome(bench: Yardstick, error: Fraction) -> Outcome:
    def hand(_: Seam) -> Fraction:
        return error

    worked = work(bench.room, hand)
    things = {make.name: taken(make, worked[make.name])[make.name] for make in bench.makes}
    return Outcome(
        error,
        tuple(size_out(make, things[make.name]) for make in bench.makes),
        tuple(
            tip
            for make in bench.makes
            for tip in tips_out(bench, make, worked[make.name], hand, bench.around[make.name])
        ),
        tuple(
            FitOut(make.name, m.step, m.what, m.found, m.wanted)
            for make in bench.makes
            for m in worked[make.name].misfits
        ),
        tuple(
            line for make in bench.makes for line in lines_out(bench, make.name, worked[make.name])
        ),
        tuple(make.name for make in bench.makes if not worked[make.name].is_followed),
        things,
    )


def size_out(make: Make, thing: Flat) -> SizeOut:
    """The size of a thing beside the published one."""
    return SizeOut(make.name, thing.width, thing.height, make.width, make.height)


def tips_out(
    bench: Yardstick, make: Make, worked: Worked, hand: Hand, arounds: Sequence[Around]
) -> Iterator[TipOut]:
    """Each tip of a unit where it fares worst, with one of these sets of seams around the unit."""
    sewn = dict.fromkeys(tuple(bench.seam + hand(side) for side in around) for around in arounds)
    places = [dict(zip(CLOCKWISE, allowances, strict=True)) for allowances in sewn]
    for spot in bench.spots.get(make.name, ()):
        found = [followed(spot, thing, place) for thing in worked.things for place in places]
        seen = [f.clearance for f in found if f is not None]
        if found:
            yield TipOut(make.name, spot, min(seen) if len(seen) == len(found) else None)


def lines_out(bench: Yardstick, make: str, worked: Worked) -> Iterator[LineOut]:
    """Seams of neighbouring rows that meet as published and do not meet now."""
    if not worked.is_followed:
        return
    rows = zip(bench.plain[make].rows, worked.rows, strict=True)
    for number, (upper, lower) in enumerate(pairwise(rows), start=1):
        below = dict(zip(*lower, strict=True))
        missed = [magnitude(now - below[at]) for at, now in zip(*upper, strict=True) if at in below]
        if max(missed, default=Fraction(0)) > 0:
            yield LineOut(make, number, max(missed))
