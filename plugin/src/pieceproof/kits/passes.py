"""Strips stacked and cut across, and how often the blade passes.

In: a batch's plan, the most layers in a stack, how many bolts are squared. Out: stacks and passes.
Strips are cut from the cloth one at a time, a pass each. Equal strips are then stacked, one end is
trued, and all layers of a stack are cut across and trimmed together.
"""

from __future__ import annotations

from dataclasses import dataclass

from pieceproof.cutting.cuts import ends_of, trims_of
from pieceproof.cutting.plan import Plan, Strip, cross_cuts_of


@dataclass(frozen=True)
class Stacking:
    """The plan's strips number ``strip``, from 0: ``full`` stacks of ``layers``, one of ``last``.

    ``last`` is 0 where the strips fill all stacks. Each stack takes ``passes``.
    """

    strip: int
    layers: int
    full: int
    last: int
    passes: int

    @property
    def stacks(self) -> int:
        """How many stacks there are."""
        return self.full + (1 if self.last else 0)


@dataclass(frozen=True)
class Work:
    """Passes of the blade for one cloth: squaring, strips, and cuts through stacks."""

    squaring: int
    strips: int
    through_stacks: int
    stackings: tuple[Stacking, ...]

    @property
    def passes(self) -> int:
        """All passes."""
        return self.squaring + self.strips + self.through_stacks


def work(plan: Plan, layers: int, squared: int) -> Work:
    """Stacks and passes for one cloth; ``squared`` counts the ends that are squared."""
    stackings = tuple(
        _stacking(plan, number, strip, layers) for number, strip in enumerate(plan.strips)
    )
    return Work(
        squared,
        sum(strip.count for strip in plan.strips),
        sum(stacking.stacks * stacking.passes for stacking in stackings),
        stackings,
    )


def _stacking(plan: Plan, number: int, strip: Strip, layers: int) -> Stacking:
    full, last = divmod(strip.count, layers)
    return Stacking(number, layers, full, last, _passes(plan, strip))


def _passes(plan: Plan, strip: Strip) -> int:
    """One end trued, then every cut; a strip that stays whole needs none."""
    width = plan.width
    return ends_of(strip, width) + cross_cuts_of(strip, width) + trims_of(strip)
