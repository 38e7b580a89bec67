"""How much narrower than planned a cloth may be.

In: what is cut from one cloth. Out: the least usable width that the very same cuts fit into: the
same strips, cross-cuts, rows of motifs and panels of the back. Nothing is planned again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quicktions import Fraction

from pieceproof.backs import BackPlan, Seams
from pieceproof.cutting.plan import Joined, Plan, Strip, used_across
from pieceproof.fussy import Fussy
from pieceproof.lengths import ceil_to
from pieceproof.published import BackingFacts


def narrowest(
    step: Fraction,
    plan: Plan,
    fussy: Sequence[Fussy],
    back: tuple[BackingFacts, BackPlan] | None,
) -> Fraction:
    """The least width in steps of the ruler."""
    widths = [
        *_strips(plan),
        *(_run(run, plan) for run in plan.joined),
        *(f.across + (f.abreast - 1) * f.apart_across + f.repeat_across for f in fussy),
        *([_back(*back)] if back else []),
    ]
    return ceil_to(max(widths, default=Fraction(0)), step)


def _strips(plan: Plan) -> Iterator[Fraction]:
    """What strips use of the width, but those that are used whole to be joined."""
    runs = {run.letter for run in plan.joined}
    return (used_across(strip) for strip in plan.strips if not _is_whole(plan, runs, strip))


def _is_whole(plan: Plan, runs: set[str], strip: Strip) -> bool:
    first = strip.segments[0]
    return first.length == plan.width and first.cuts[0].letter in runs


def _run(run: Joined, plan: Plan) -> Fraction:
    """How long the whole strips of a run have to be, its last part staying as it is."""
    sewn = run.length * run.count + (run.strips - 1) * run.loss
    last = run.run - (run.strips - 1) * (plan.width - run.loss)
    return sewn / run.strips if last == plan.width else (sewn - last) / (run.strips - 1)


def _back(facts: BackingFacts, back: BackPlan) -> Fraction:
    """Panels sewn side by side, the same number of them, or backs that lie side by side."""
    across = facts.width if back.seams is Seams.UPRIGHT else facts.height
    if back.panels == 1:
        return across * back.abreast
    joins = back.panels + back.halved - 1
    return (across + joins * 2 * back.seam) / back.panels
