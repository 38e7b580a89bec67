"""One cloth planned for a whole batch.

In: what one bag needs from the cloth, and how many bags. Out: the demand, which is that of one bag
times the bags, its cutting plan, and what planning together saves.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, Want
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.planner import plan
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, FIVE_CM, published_length
from pieceproof.demands import SQUARING
from pieceproof.kits.contents import BagCloth
from pieceproof.model import Design, Measure
from pieceproof.requirements import ROOM, planning_steps


@dataclass(frozen=True)
class Batch:
    """A cloth's plan for ``kits`` bags."""

    cloth: BagCloth
    kits: int
    demand: Demand
    plan: Plan


@dataclass(frozen=True)
class Gain:
    """Length of cloth for a batch planned together and for as many kits planned one by one.

    Both are rounded up to what is sold: ``together`` once, ``separately`` once for each kit.
    ``per_cent`` is what together saves of separately, rounded down to a tenth.
    """

    together: Fraction
    separately: Fraction
    per_cent: Fraction


def planned(cloth: BagCloth, kits: int, design: Design) -> tuple[Batch, tuple[str, ...]]:
    """The batch, and what stops it from being planned, each as one sentence."""
    demand = _demand(cloth, kits, design.measure)
    found, problems = plan(demand, planning_steps(design))
    return Batch(cloth, kits, demand, found), problems


def gain(batch: Batch, alone: Batch, measure: Measure) -> Gain:
    """What planning together saves against ``alone``, the same cloth for one kit."""
    step = EIGHTH_YARD_IN if measure is Measure.INCH else FIVE_CM
    together = published_length(batch.plan, ROOM[measure], step).published
    separately = batch.kits * published_length(alone.plan, ROOM[measure], step).published
    saved = 1000 * (separately - together) / separately
    return Gain(together, separately, Fraction(saved.numerator // saved.denominator, 10))


def _demand(cloth: BagCloth, kits: int, measure: Measure) -> Demand:
    wants = tuple(
        Want(p.key, p.across, p.along, p.each_bag * kits, p.turnable) for p in cloth.parcels
    )
    return Demand(wants, (), cloth.usable_width, measure.step, SQUARING[measure])
