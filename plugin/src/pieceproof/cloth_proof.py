"""Is what a size asks its customers to buy enough, and no more than it says?

In: a design, its publication and its requirements. Out: one sentence for each fault. Everything
is worked out again from the cutting list; it shares no code with `requirements` or the planner,
only their data and `cutting.check`. A plan's bound is the planner's own affair: whether a shorter
plan exists is not asked here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict

from quicktions import Fraction

from pieceproof.backs import BackPlan
from pieceproof.cutting.check import cuts_made, plan_faults
from pieceproof.cutting.demand import Demand, Long, Want
from pieceproof.cutting.plan import Joined, Plan
from pieceproof.model import Design, FabricName
from pieceproof.print_proof import Ends, ends_of, motif_faults, motifs_on, print_faults
from pieceproof.published import BackingFacts, Publication
from pieceproof.requirements import Need, Requirements
from pieceproof.template_proof import blade_passes

_YARD_IN_METRES = Fraction(9144, 10000)  # the 1959 agreement
_INCH, _CENTIMETRE = Fraction(1, 36) * _YARD_IN_METRES, Fraction(1, 100)


def cloth_faults(
    design: Design, publication: Publication, requirements: Requirements
) -> tuple[str, ...]:
    """Everything wrong with the cloth of one size, in plain sentences; empty if all is well."""
    faults = [*group_faults(design, publication, requirements)]
    ends = ends_of(design, publication)
    for need in requirements.needs:
        name = f"{' and '.join(need.fabrics)} from cloth {need.usable_width} wide"
        faults += [f"{name}: {fault}" for fault in need_faults(design, publication, need, ends)]
    return tuple(faults)


def group_faults(
    design: Design, publication: Publication, requirements: Requirements
) -> Iterator[str]:
    """Each part alone and each cloth of each colourway is planned once at every width."""
    parts = set(_items(publication).values())
    groups: set[tuple[str, ...]] = {(part,) for part in parts}
    for name, colourway in design.colourways.items():
        played = [cloth for cloth in requirements.played if cloth.colourway == name]
        counted = Counter(fabric for cloth in played for fabric in cloth.fabrics)
        if counted != Counter(parts):
            yield f"the cloths of {name} do not play each part exactly once"
        for cloth in played:
            groups.add(cloth.fabrics)
            if any(colourway.parts.get(FabricName(f)) != cloth.cloth for f in cloth.fabrics):
                yield f"{cloth.cloth} does not play {' and '.join(cloth.fabrics)} in {name}"
        bolts = {(cloth.cloth, cloth.fabrics == _alone(design)) for cloth in played}
        if len(bolts) != len(played):
            yield f"a cloth of {name} is listed twice"
        if any(set(_alone(design)) < set(cloth.fabrics) for cloth in played if _alone(design)):
            yield f"the extra-wide back shares a cloth in {name}"
    if {cloth.colourway for cloth in requirements.played} != set(design.colourways):
        yield "the colourways are not those of the design"
    wanted = Counter((group, width) for group in groups for width in requirements.usable_widths)
    if Counter((need.fabrics, need.usable_width) for need in requirements.needs) != wanted:
        yield "not every group of parts is planned exactly once at every usable width"


def _alone(design: Design) -> tuple[str, ...]:
    """The fabric that is not planned with others: that of a back of extra-wide cloth."""
    back = design.backing
    return () if back is None or back.usable_width is None else (back.fabric,)


def _items(publication: Publication) -> dict[str, str]:
    """Everything that is cut, by letter or name, and its part."""
    items = {piece.letter: piece.fabric for piece in publication.pieces}
    if publication.binding is not None:
        items["binding"] = publication.binding.fabric
    if publication.backing is not None:
        items["backing"] = publication.backing.fabric
    if publication.sleeve is not None:
        items["sleeve"] = publication.sleeve.fabric
    return items


def need_faults(design: Design, publication: Publication, need: Need, ends: Ends) -> Iterator[str]:
    """What is wrong with one cloth, and with the other ways to cut its long strips."""
    yield from _way_faults(design, publication, need, ends)
    yield from _other_faults(design, publication, need)
    for other in need.others:
        for fault in _way_faults(design, publication, other, ends):
            yield f"the other way: {fault}"


def _way_faults(design: Design, publication: Publication, need: Need, ends: Ends) -> Iterator[str]:
    demand, plan = need.demand, need.plan
    inch = publication.measure == "inch"
    squaring = Fraction(1) if inch else Fraction(5, 2)
    if (demand.usable_width, demand.step) != (need.usable_width, publication.step):
        yield "planned for another cloth or another ruler"
        return
    if demand.squaring != squaring:
        yield f"squaring takes {demand.squaring} instead of {squaring}"
    if not 0 <= demand.usable_width - plan.width < demand.step:
        yield f"the plan uses {plan.width} of the width"
    yield from _list_faults(publication, need)
    yield from print_faults(design, publication, need, ends)
    yield from motif_faults(design, publication, need)
    yield from _narrow_faults(publication, need)
    yield from plan_faults(demand, plan)
    yield from _turn_faults(demand, plan)
    yield from _join_faults(demand, plan)
    yield from _back_faults(design, publication, need)
    yield from _length_faults(need, squaring, inch)
    yield from _spare_faults(need)
    yield from _cut_faults(publication, need)


def _list_faults(publication: Publication, need: Need) -> Iterator[str]:
    """The demand is the cutting list of the group: each piece once, binding strips with it."""
    motifs = {fussy.letter for fussy in need.fussy}
    wanted = {
        p.letter: (p.short, p.long, p.count)
        for p in publication.pieces
        if p.fabric in need.fabrics and p.letter not in motifs
    }
    binding = publication.binding
    if binding is not None and binding.fabric in need.fabrics:
        length = -(-binding.length // publication.step) * publication.step
        strip = (binding.cut_width, length)
        square = (binding.square, binding.square) if binding.square else strip
        wanted["binding"] = (*square, publication.quantity)
    sleeve = publication.sleeve
    if sleeve is not None and sleeve.fabric in need.fabrics:
        sides = (sleeve.cut_width, sleeve.length)
        wanted["sleeve"] = (min(sides), max(sides), publication.quantity)
    items: list[Want | Long] = [*need.demand.wants, *need.demand.longs]
    asked: dict[str, tuple[Fraction, Fraction, int]] = {}
    for item in items:
        letter, _, lie = item.letter.partition(" ")
        one, other, count = _sizes(item)
        size = (min(one, other), max(one, other))
        before = asked.get(letter, (*size, 0))
        asked[letter] = (*size, before[2] + count)
        if before[:2] != size or lie not in ("", "upright", "lying"):
            yield f"{item.letter}: asked for in two sizes"
    if len({item.letter for item in items}) != len(items):
        yield "a letter is asked for twice"
    for letter in sorted(asked.keys() | wanted.keys()):
        if asked.get(letter) != wanted.get(letter):
            yield f"{letter}: asked for {asked.get(letter)}, the list says {wanted.get(letter)}"
    for long in need.demand.longs:
        if long.seam != publication.seam:
            yield f"{long.letter}: joined with a seam of {long.seam}"


def _sizes(item: Want | Long) -> tuple[Fraction, Fraction, int]:
    if isinstance(item, Want):
        return item.across, item.along, item.count
    return item.width, item.length, item.count


def _narrow_faults(publication: Publication, need: Need) -> Iterator[str]:
    """Make the same cuts from cloth of the least width, and from cloth a step narrower."""
    step = need.demand.step
    if not _fits(publication, need, need.narrowest):
        yield f"the cuts do not fit into {need.narrowest}"
    if need.narrowest and _fits(publication, need, need.narrowest - step):
        yield f"the cuts fit into {need.narrowest - step}"


def _fits(publication: Publication, need: Need, width: Fraction) -> bool:
    runs = {run.letter: run for run in need.plan.joined}
    whole: dict[str, int] = Counter()
    for strip in need.plan.strips:
        sides = [segment.length for segment in strip.segments for _ in range(segment.count)]
        letters = [cut.letter for segment in strip.segments for cut in segment.cuts]
        if sides == [need.plan.width] and letters[:1] and letters[0] in runs:
            whole[letters[0]] += strip.count
        elif sum(sides) > width:
            return False
    for letter, run in runs.items():
        rest = run.run - (run.strips * need.plan.width - (run.strips - 1) * run.loss)
        last = need.plan.width + rest if whole[letter] < run.strips else Fraction(0)
        sewn = whole[letter] * width + last - (run.strips - 1) * run.loss
        if sewn < run.count * run.length:
            return False
    if any(motifs_on(width, f.across, f.repeat_across) < f.abreast for f in need.fussy):
        return False
    back = publication.backing
    if back is None or need.backs is None:
        return True
    way = need.backs.chosen
    across = back.width if way.seams.value == "upright" else back.height
    if way.panels == 1:
        return across * way.abreast <= width
    return _sewn(_parts(way.panels, way.halved, width), way.seam) >= across


def _other_faults(design: Design, publication: Publication, need: Need) -> Iterator[str]:
    """Long strips are priced each way once, and the writer's way is the one that is planned."""
    free = {
        p.letter
        for p in publication.pieces
        if p.fabric in need.fabrics and design.fabrics[p.fabric].print.value == "any way up"
    } & {long.letter for long in need.demand.longs}
    found = [
        sorted({_way(long) for long in planned.demand.longs if long.letter in free})
        for planned in (need, *need.others)
    ]
    ways = [["crosswise diagonal"], ["crosswise straight"], ["lengthwise"]] if free else [[]]
    if sorted(found) != ways:
        yield f"long strips are priced {found}"
    stated = _named(design.long_strips.cut.value, design.long_strips.join.value)
    if free and found[0] != [stated]:
        yield "long strips are not cut as the writer says"
    for other in need.others:
        if other.others or (other.fabrics, other.usable_width) != (need.fabrics, need.usable_width):
            yield "another way belongs to another cloth"


def _way(long: Long) -> str:
    return _named(long.way, long.join)


def _named(way: str, join: str) -> str:
    return way if way == "lengthwise" else f"{way} {join}"


def _turn_faults(demand: Demand, plan: Plan) -> Iterator[str]:
    """Pieces are called turned exactly where they lie otherwise than in the list."""
    listed = {want.letter: want.across for want in demand.wants}
    for strip in plan.strips:
        for cut in (cut for segment in strip.segments for cut in segment.cuts):
            if cut.turned != (listed.get(cut.letter, cut.across) != cut.across):
                yield f"{cut.letter}: {cut.across} across, said to be turned: {cut.turned}"


def _join_faults(demand: Demand, plan: Plan) -> Iterator[str]:
    """As many strips as the plan joins are enough, and one fewer would not be."""
    for run in plan.joined:
        long = next((item for item in demand.longs if item.letter == run.letter), None)
        if long is None:
            yield f"{run.letter}: joined, but nobody asked for it"
            continue
        wanted = long.length * long.count
        lost = long.width if long.join == "diagonal" else long.seam + long.seam
        sewn, fewer = (n * plan.width - (n - 1) * lost for n in (run.strips, run.strips - 1))
        if sewn < wanted:
            yield f"{run.letter}: {run.strips} strips give {sewn}, {wanted} are wanted"
        if fewer >= wanted:
            yield f"{run.letter}: {run.strips - 1} strips would do"
        if long.way == "crosswise" and long.length <= plan.width:
            yield f"{run.letter}: joined, though one strip is long enough"


def _back_faults(design: Design, publication: Publication, need: Need) -> Iterator[str]:
    back = publication.backing
    if back is None or back.fabric not in need.fabrics:
        if need.backs is not None:
            yield "a back is planned that is not made of this"
        return
    if need.backs is None:
        yield "no back is planned"
        return
    chosen, other = need.backs.chosen, need.backs.other
    if {chosen.seams.value, other.seams.value} != {"upright", "level"}:
        yield "the back is not priced both ways"
    if (other.total, other.panels) < (chosen.total, chosen.panels):
        yield "the back is cheaper the other way, or has fewer seams for the same length"
    for way in (chosen, other):
        for fault in _panel_faults(design, publication, back, way, need.usable_width):
            yield f"the back with {way.seams.value} seams: {fault}"


def _panel_faults(
    design: Design,
    publication: Publication,
    back: BackingFacts,
    way: BackPlan,
    usable_width: Fraction,
) -> Iterator[str]:
    """Lay the panels side by side, sewn, and see whether they cover the back, the last one too."""
    across, along = back.width, back.height
    if way.seams.value == "level":
        across, along = along, across
    yield from _bolt_faults(design, publication, way, usable_width)
    width = way.width
    no_middle = design.backing is not None and design.backing.middle_seam.value == "avoided"
    parts = _parts(way.panels, way.halved, width)
    if no_middle and len(parts) % 2 == 0:
        yield "a seam runs down the middle"
    if way.halved and not (no_middle and way.panels % 2 == 0):
        yield "a panel is cut in half for nothing"
    if _sewn(parts, way.seam) < across:
        yield f"{way.panels} panels do not cover it"
    fewer = way.panels - 1
    if fewer and _sewn(_parts(fewer, int(no_middle and fewer % 2 == 0), width), way.seam) >= across:
        yield f"{fewer} panels cover it"
    if not along <= way.length < along + publication.step:
        yield f"lengths of {way.length} for a side of {along}"
    if (way.length / publication.step).denominator != 1:
        yield f"lengths of {way.length} are off the ruler's grid"
    fit = 0
    while (fit + 1) * across <= width:
        fit += 1
    if way.abreast != max(fit, 1):
        yield f"{way.abreast} side by side, {max(fit, 1)} fit"
    wanted = publication.quantity * way.panels
    if not (way.lengths - 1) * way.abreast < wanted <= way.lengths * way.abreast:
        yield f"{way.lengths} lengths for {wanted} panels, {way.abreast} side by side"
    if way.total != sum(way.length for _ in range(way.lengths)):
        yield f"{way.lengths} lengths of {way.length} are not {way.total}"


def _bolt_faults(
    design: Design, publication: Publication, way: BackPlan, usable_width: Fraction
) -> Iterator[str]:
    """Cloth and seams are as the writer states them, or the usual ones."""
    usual = Fraction(1, 2) if publication.measure == "inch" else Fraction(3, 2)
    stated = design.backing
    seam = stated.seam if stated is not None and stated.seam is not None else usual
    width = stated.usable_width if stated is not None and stated.usable_width else usable_width
    if way.seam != seam:
        yield f"sewn with {way.seam} instead of {seam}"
    if way.width != width:
        yield f"made of cloth {way.width} wide instead of {width}"


def _parts(panels: int, halved: int, width: Fraction) -> list[Fraction]:
    """What is sewn side by side, from the left; a halved panel lies on both sides."""
    half = [width / 2] * halved
    return [*half, *[width] * (panels - halved), *half]


def _sewn(parts: list[Fraction], seam: Fraction) -> Fraction:
    """How wide the parts are when each has lost the seams at its sides."""
    return sum(parts, Fraction(0)) - (len(parts) - 1) * (seam + seam)


def _length_faults(need: Need, squaring: Fraction, inch: bool) -> Iterator[str]:
    strips = sum((strip.height * strip.count for strip in need.plan.strips), Fraction(0))
    back = need.backs.chosen.total if need.backs else Fraction(0)
    motifs = sum((fussy.length for fussy in need.fussy), Fraction(0))
    needed, yardage = strips + squaring + back + motifs, need.yardage
    if yardage.needed != needed:
        yield f"{needed} is needed, not {yardage.needed}"
    unit = _INCH if inch else _CENTIMETRE
    room = (Fraction(2) if inch else Fraction(5)) if strips else Fraction(0)
    metres = (needed + room) * unit
    for name, bought, step in (
        ("yards", need.yards * _YARD_IN_METRES, _YARD_IN_METRES / 8),
        ("metres", need.metres, Fraction(5, 100)),
    ):
        if (bought / step).denominator != 1:
            yield f"{name}: not sold in such steps"
        if not metres <= bought < metres + step:
            yield f"{name}: {float(bought):.4f} m for {float(metres):.4f} m"
    stated = need.yards * _YARD_IN_METRES if inch else need.metres
    if yardage.published * unit != stated:
        yield f"the length {yardage.published} is not what is bought"
    if yardage.room != yardage.published - needed:
        yield f"the room left is {yardage.published - needed}, not {yardage.room}"


def _cut_faults(publication: Publication, need: Need) -> Iterator[str]:
    """Make every cut again and count it."""
    made: Counter[str] = Counter(squaring=1, **cuts_made(need.plan))
    for fussy in need.fussy:
        made["lengths"] += 1
        made["motifs"] += fussy.count * len(("above", "below", "left", "right"))
    if need.backs is not None:
        made.update(_made_for_backs(publication, need.backs.chosen))
    for run in need.plan.joined:
        made.update(_made_for_run(need.plan, run))
    for piece in publication.pieces:
        if piece.fabric in need.fabrics and piece.template is not None:
            made["templates"] += piece.count * blade_passes(piece, piece.template)
    binding = publication.binding
    if binding is not None and binding.fabric in need.fabrics and binding.square is not None:
        made["bias"] += publication.quantity * len(("along the diagonal", "round the tube"))
    told = asdict(need.cuts)
    if told != {kind: made[kind] for kind in told}:
        yield f"the cuts made are {dict(+made)}, not {dict(+Counter(told))}"


def _made_for_backs(publication: Publication, way: BackPlan) -> Counter[str]:
    """Cut length after length off the bolt, take its selvages off, divide it."""
    made: Counter[str] = Counter()
    left = publication.quantity * way.panels
    for _ in range(way.lengths):
        made["lengths"] += 1
        if way.panels > 1:
            made["selvages"] += len(("left", "right"))
        there = min(way.abreast, left)
        left -= there
        made["backs"] += there - 1
    made["backs"] += sum(way.halved for _ in range(publication.quantity))
    return made


def _made_for_run(plan: Plan, run: Joined) -> Counter[str]:
    """Lay the strips end to end, one with true ends last, and cut lengths off from that end.

    A whole strip ends at its selvages; a part of a strip was cut at both ends. A binding is sewn
    on from a loose end to where its ends meet, so only several bindings are parted.
    """
    made: Counter[str] = Counter()
    are_true: list[bool] = []
    for strip in plan.strips:
        for segment in strip.segments:
            parts = sum(cut.count for cut in segment.cuts if cut.letter == run.letter)
            parts *= strip.count * segment.count
            are_true += [segment.length != plan.width] * 2 * parts
    _, *sewn, outer = sorted(are_true)
    if run.join == "diagonal":
        made["joins"] += len(sewn) // 2
    else:
        made["join_ends"] += sewn.count(False)
    if run.letter == "binding":
        made["runs"] += run.count - 1
        return made
    made["join_ends"] += not outer
    left = run.run
    for _ in range(run.count):
        left -= run.length
        made["runs"] += left > 0
    return made


def _spare_faults(need: Need) -> Iterator[str]:
    """Cut spare pieces from the ends of strips and from the room, as they lie in the plan."""
    plan, room = need.plan, need.yardage.room
    joined = {run.letter for run in plan.joined}
    lies: dict[str, set[tuple[Fraction, Fraction]]] = {}
    for strip in plan.strips:
        for cut in (cut for segment in strip.segments for cut in segment.cuts):
            if cut.letter not in joined:
                lies.setdefault(cut.letter, set()).add((cut.across, cut.along))
    found = {spare.letter: (spare.from_ends, spare.from_room) for spare in need.yardage.spares}
    wanted = {letter: _spares(plan, room, ways) for letter, ways in lies.items()}
    if found != wanted or len(found) != len(need.yardage.spares):
        yield f"spare pieces are {sorted(wanted.items())}, not {sorted(found.items())}"
    heights = {strip.height for strip in plan.strips}
    again = {entry.height: entry.strips for entry in need.yardage.again}
    if again != {height: _times(room, height) for height in heights}:
        yield "the room does not hold the strips it is said to hold"


def _spares(plan: Plan, room: Fraction, ways: set[tuple[Fraction, Fraction]]) -> tuple[int, int]:
    ends = 0
    for strip in plan.strips:
        free = plan.width
        for segment in strip.segments:
            free -= segment.length * segment.count
        best = max(_times(free, across) * _times(strip.height, along) for across, along in ways)
        ends += best * strip.count
    return ends, max(_times(plan.width, across) * _times(room, along) for across, along in ways)


def _times(length: Fraction, part: Fraction) -> int:
    return int(length / part)
