"""Cuts a plan as a person would, edge to edge, and says what is wrong with what falls out.

Goes in: the demand and a plan for it. Comes out: one sentence per fault, empty for a sound plan.
It shares no code with the planner beyond the data both read, and trusts no number of the plan.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.cutting.plan import Cut, Joined, Plan, Segment, Strip


@dataclass(frozen=True, slots=True)
class _Piece:
    """A size as it came off the mat, with the side that lay across the cloth first."""

    letter: str
    across: Fraction
    along: Fraction


def plan_faults(demand: Demand, plan: Plan) -> tuple[str, ...]:
    """Everything wrong with the plan: sizes, counts, grain, edges of the cloth, sums."""
    fallen: Counter[_Piece] = Counter()
    faults = list(_cut_cloth(demand, plan, fallen))
    faults += _turned_faults(demand, plan)
    faults += [fault for want in demand.wants for fault in _want_faults(want, fallen)]
    faults += [fault for long in demand.longs for fault in _long_faults(long, plan, fallen)]
    known = {want.letter for want in demand.wants} | {long.letter for long in demand.longs}
    strange = sorted({piece.letter for piece in fallen} - known)
    faults += [f"{letter}: cut, but nobody asked for it" for letter in strange]
    return tuple(faults)


def cuts_made(plan: Plan) -> dict[str, int]:
    """How often the blade passes, by kind, when the strips are cut up one layer at a time.

    A cut is made where cloth lies on both sides of it. The cloth itself goes on behind the last
    strip, and a strip is trued once before its first segment comes off.
    """
    made: Counter[str] = Counter()
    for strip in plan.strips:
        made["strips"] += strip.count
        free = plan.width
        for segment in strip.segments:
            for _ in range(segment.count):
                free -= segment.length
                made["across"] += strip.count if free else 0
                made["trims"] += strip.count * _parted(strip.height, segment)
        stays_whole = not free and plan.width == strip.segments[0].length
        made["ends"] += 0 if stays_whole else strip.count
    return {kind: made[kind] for kind in ("strips", "ends", "across", "trims")}


def _parted(height: Fraction, segment: Segment) -> int:
    """Cuts from the top of a segment down: one under each piece that does not end at the edge."""
    passes = 0
    for cut in segment.cuts:
        for _ in range(cut.count):
            height -= cut.along
            passes += bool(height)
    return passes


def _cut_cloth(demand: Demand, plan: Plan, fallen: Counter[_Piece]) -> Iterator[str]:
    """Strip after strip off the cloth; what falls out is counted into `fallen`."""
    if plan.width > demand.usable_width:
        yield f"the plan's width {plan.width} is more than the usable {demand.usable_width}"
    if plan.squaring != demand.squaring:
        yield f"the plan squares with {plan.squaring}, the demand with {demand.squaring}"
    edge = Fraction(0)
    for number, strip in enumerate(plan.strips, 1):
        edge += strip.height * strip.count
        for fault in _cut_strip(demand, plan.width, strip, fallen):
            yield f"strip {number}: {fault}"
    if edge != plan.length:
        yield f"the strips use {edge} of the cloth, the plan says {plan.length}"
    if plan.bound > plan.length:
        yield f"the bound {plan.bound} is longer than the plan {plan.length}"
    if plan.proven != (plan.bound == plan.length):
        yield f"proven is {plan.proven} with a bound of {plan.bound} for a length of {plan.length}"


def _cut_strip(
    demand: Demand, width: Fraction, strip: Strip, fallen: Counter[_Piece]
) -> Iterator[str]:
    if strip.count < 1:
        yield f"cut {strip.count} times"
    yield from _ruler_faults(strip.height, demand.step)
    free = width
    for segment in strip.segments:
        if segment.count < 1:
            yield f"a segment cut {segment.count} times"
        yield from _ruler_faults(segment.length, demand.step)
        free -= segment.length * segment.count
        yield from _cut_segment(strip, segment, fallen)
    if not strip.segments:
        yield "nothing is cut from it"
    if free < 0:
        yield f"its segments are {-free} longer than the cloth is wide"


def _cut_segment(strip: Strip, segment: Segment, fallen: Counter[_Piece]) -> Iterator[str]:
    free = strip.height
    for cut in segment.cuts:
        if cut.count < 1:
            yield f"{cut.letter} cut {cut.count} times"
        if cut.across != segment.length:
            yield f"{cut.letter} is {cut.across} across in a segment of {segment.length}"
        free -= cut.along * cut.count
        piece = _Piece(cut.letter, segment.length, cut.along)
        fallen[piece] += cut.count * segment.count * strip.count
    if len({cut.along for cut in segment.cuts}) != 1:
        yield "a segment does not hold pieces of one size"
    if free < 0:
        yield f"a segment of {segment.length} is stacked {-free} higher than the strip"


def _ruler_faults(length: Fraction, step: Fraction) -> Iterator[str]:
    if length <= 0:
        yield f"a cut at {length}"
    elif (length / step).denominator != 1:
        yield f"a cut at {length} is off the ruler's grid of {step}"


def _turned_faults(demand: Demand, plan: Plan) -> Iterator[str]:
    wants = {want.letter: want for want in demand.wants}
    cuts = {cut for strip in plan.strips for segment in strip.segments for cut in segment.cuts}
    for cut in sorted(cuts, key=lambda cut: (cut.letter, cut.across, cut.along, cut.turned)):
        if cut.turned and not (cut.letter in wants and wants[cut.letter].turnable):
            yield f"{cut.letter}: turned, which is not allowed"
        if cut.turned and cut.letter in wants and not _is_turned(wants[cut.letter], cut):
            yield f"{cut.letter}: called turned, but lies as asked"


def _is_turned(want: Want, cut: Cut) -> bool:
    return (cut.across, cut.along) == (want.along, want.across)


def _want_faults(want: Want, fallen: Counter[_Piece]) -> Iterator[str]:
    right = {_Piece(want.letter, want.across, want.along)}
    if want.turnable:
        right.add(_Piece(want.letter, want.along, want.across))
    got = sum(fallen[piece] for piece in right)
    if got != want.count:
        yield f"{want.letter}: {got} pieces of the right size and grain, {want.count} wanted"
    yield from _wrong_sizes(want.letter, fallen, right)


def _wrong_sizes(letter: str, fallen: Counter[_Piece], right: set[_Piece]) -> Iterator[str]:
    wrong = {piece for piece in fallen if piece.letter == letter} - right
    for piece in sorted(wrong, key=lambda piece: (piece.across, piece.along)):
        yield f"{letter}: {fallen[piece]} pieces of {piece.across} x {piece.along}, not asked for"


def _long_faults(long: Long, plan: Plan, fallen: Counter[_Piece]) -> Iterator[str]:
    runs = [run for run in plan.joined if run.letter == long.letter]
    if long.way == "lengthwise":
        whole = Want(long.letter, long.width, long.length, long.count, False)
        yield from _want_faults(whole, fallen)
    elif runs:
        for run in runs:
            yield from _run_faults(long, run, fallen)
    else:
        whole = Want(long.letter, long.length, long.width, long.count, False)
        yield from _want_faults(whole, fallen)
    if len(runs) > 1 or (runs and long.way == "lengthwise"):
        yield f"{long.letter}: joined {len(runs)} times"


def _run_faults(long: Long, run: Joined, fallen: Counter[_Piece]) -> Iterator[str]:
    """Sew the parts end to end again and measure the run."""
    parts = {piece: n for piece, n in fallen.items() if piece.letter == long.letter}
    for piece in parts:
        if piece.along != long.width:
            yield f"{long.letter}: a part is {piece.along} wide instead of {long.width}"
    eaten = long.width if long.join == "diagonal" else long.seam + long.seam
    strips = sum(parts.values())
    sewn = sum((piece.across * n for piece, n in parts.items()), Fraction(0)) - eaten * (strips - 1)
    if sewn < long.length * long.count:
        yield f"{long.letter}: the joined run is {sewn}, {long.count} x {long.length} are wanted"
    told = (run.strips, run.join, run.loss, run.run, run.length, run.count)
    if told != (strips, long.join, eaten, sewn, long.length, long.count):
        yield f"{long.letter}: the plan describes {told}, sewn were {strips} strips, {sewn} long"
