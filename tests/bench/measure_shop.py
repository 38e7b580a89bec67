"""Measure the planner on the shop's own patterns and print one sentence.

    python tests/bench/measure_shop.py

Every group of parts of every size at every width that the patterns are worked out for, each once,
with the effort that publishing spends.
"""

from collections.abc import Mapping
from pathlib import Path

from quicktions import Fraction

from pieceproof.compile import compile_pattern
from pieceproof.cutting.demand import Demand
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, FIVE_CM, rounded_up
from pieceproof.demands import SQUARING
from pieceproof.folders import read_folders
from pieceproof.model import Measure

PATTERNS = Path(__file__).parents[2] / "patterns"


def shop_plans() -> Mapping[Demand, Plan]:
    """The plan of every demand."""
    folders, _ = read_folders(PATTERNS)
    return {
        need.demand: need.plan
        for slug, folder in folders.items()
        for size in compile_pattern(slug, folder).sizes
        for need in size.requirements.needs
        if need.demand.wants or need.demand.longs
    }


def bought(demand: Demand, length: Fraction) -> Fraction:
    """That length with the squaring, in eighths of a yard or steps of 5 cm."""
    step = EIGHTH_YARD_IN if demand.squaring == SQUARING[Measure.INCH] else FIVE_CM
    return rounded_up(length + demand.squaring, step)


if __name__ == "__main__":
    plans = shop_plans()
    proven = sum(plan.proven for plan in plans.values())
    least = sum(bought(of, plan.length) == bought(of, plan.bound) for of, plan in plans.items())
    worst = max(float(plan.gap) for plan in plans.values())
    print(
        f"{len(plans)} plans: {100 * proven / len(plans):.1f} % proven the shortest, "
        f"{100 * least / len(plans):.1f} % cannot be bought shorter, "
        f"largest gap {100 * worst:.2f} %"
    )
