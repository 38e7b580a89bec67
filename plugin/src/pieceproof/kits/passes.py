"""Strips stacked and cut across, and how often the blade passes.

In: a batch's plan, the most layers in a stack, how many bolts are squared. Out: stacks and passes.
Strips are cut from the cloth one at a time, a pass each. Equal strips are then stacked, one end is
trued, and all layers of a stack are cut across and trimmed together.
"""

from __future__ import annotations

from dataclasses import dataclass

from pieceproof.cutting.plan import Plan, Segment, Strip, used_across


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
    """A strip that stays whole needs none; others have one end trued, then every cut."""
    whole = len(strip.segments) == 1 and strip.segments[0].count == 1
    if whole and used_across(strip) == plan.width:
        return _trims(strip, strip.segments[0])
    across = sum(segment.count for segment in strip.segments) - (used_across(strip) == plan.width)
    return 1 + across + sum(segment.count * _trims(strip, segment) for segment in strip.segments)


def _trims(strip: Strip, segment: Segment) -> int:
    """Cuts that part the pieces of one segment and take off what is left above them."""
    pieces = sum(cut.count for cut in segment.cuts)
    height = sum(cut.count * cut.along for cut in segment.cuts)
    return pieces - (height == strip.height)
