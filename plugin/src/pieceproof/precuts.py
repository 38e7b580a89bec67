"""How many fat quarters, cuts, squares or strips a part of the design could be cut from instead.

In: a design, its publication and requirements. Out: for each part whose pieces all fit, how many of
each kind of precut cloth, cut up. Parts with joined strips, motifs or the back are bought by the
yard.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.cutting.demand import Demand
from pieceproof.cutting.sheet_check import sheet_faults
from pieceproof.cutting.sheets import FromSheet, Shared, Sheet, sheets_needed
from pieceproof.model import Measure
from pieceproof.requirements import Need, Requirements

_HALF, _CM = Fraction(1, 2), Fraction(1)


def _sheet(name: str, width: int, length: Fraction | int, squaring: Fraction | int = 0) -> Sheet:
    return Sheet(name, Fraction(width), Fraction(length), 1, Fraction(squaring))


PRECUTS: Mapping[Measure, tuple[Sheet, ...]] = {
    # As the trade cuts them, without selvages from cloth 40 in or 100 cm wide; what is torn or cut
    # by eye is squared at one end, precuts are not. Fat quarters 18 x 22 (check value 43: HOHN,
    # DBAY) or 50 x 55 cm, fat eighths 9 x 21 (50: APQ), strips and squares (51: UNL); the usable
    # sizes are common practice.
    Measure.INCH: (
        _sheet("fat quarters", 20, 18, _HALF),
        _sheet("fat eighths", 20, 9, _HALF),
        _sheet("half-yard cuts", 40, 18, _HALF),
        _sheet('10" squares', 10, 10),
        _sheet('5" squares', 5, 5),
        _sheet('2 1/2" strips', 40, Fraction(5, 2)),
    ),
    Measure.CENTIMETRE: (
        _sheet("fat quarters", 50, 50, _CM),
        _sheet("fat eighths", 50, 25, _CM),
        _sheet("half-metre cuts", 100, 50, _CM),
    ),
}


@dataclass(frozen=True)
class FromPrecuts:
    """A part cut from precuts of one kind, each of them once."""

    fabric: str
    demand: Demand
    cut: tuple[FromSheet, ...]

    @property
    def name(self) -> str:
        """What the trade calls them."""
        return self.cut[0].sheet.name


def from_precuts(measure: Measure, requirements: Requirements) -> tuple[FromPrecuts, ...]:
    """Every part with every kind of precut that does for it."""
    usual = requirements.usable_widths[0]
    parts = (n for n in requirements.needs if n.usable_width == usual and len(n.fabrics) == 1)
    return tuple(found for need in parts for found in _kinds(measure, need))


def _kinds(measure: Measure, need: Need) -> Iterator[FromPrecuts]:
    if need.backs is not None or need.fussy:
        return
    for sheet in PRECUTS[measure]:
        cut = sheets_needed(need.demand, sheet)
        if cut is not None:
            yield FromPrecuts(need.fabrics[0], need.demand, cut)


def precut_faults(found: FromPrecuts) -> tuple[str, ...]:
    """Cut them up and count what falls out: nothing may be left to cut."""
    kind = found.cut[0].sheet
    there = Sheet(kind.name, kind.width, kind.length, len(found.cut), kind.squaring)
    alike = tuple(
        FromSheet(there, number, cut.turned, cut.plan) for number, cut in enumerate(found.cut, 1)
    )
    nothing = Demand((), (), found.demand.usable_width, found.demand.step, found.demand.squaring)
    faults = sheet_faults(found.demand, [there], Shared(alike, nothing))
    return tuple(f"{found.fabric} from {found.name}: {fault}" for fault in faults)
