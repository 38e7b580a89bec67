"""Is a sheet of kits right? The batch is cut, packed and counted again.

In: a sheet. Out: one sentence for each fault, none for a sound sheet. Strips come off the bolts one
share after the other, every segment is cut up and what falls out is counted; then the bags are
packed from the heaps by the packing list, and the list is counted a second time from the pattern's
own cutting list. It shares no code with what made the sheet, only its data and `cutting.check`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.cutting.check import plan_faults
from pieceproof.kits.contents import Parcel
from pieceproof.kits.sheet import ClothSheet, KitSheet
from pieceproof.published import Publication

Rectangle: TypeAlias = tuple[Fraction, Fraction]
"""Short side, long side."""

Heaps: TypeAlias = "Counter[tuple[str, Rectangle]]"
"""How many pieces of each key and size lie on the table."""


def kit_faults(sheet: KitSheet) -> tuple[str, ...]:
    """Everything wrong with the sheet."""
    faults = list(_list_faults(sheet))
    for cloth in sheet.cloths:
        heaps: Heaps = Counter()
        told = [
            *plan_faults(cloth.batch.demand, cloth.batch.plan),
            *_cut(cloth, heaps),
            *_bolt_faults(sheet, cloth),
            *_pack(sheet, cloth, heaps),
            *_pass_faults(sheet, cloth),
        ]
        faults += [f"{cloth.cloth.name}: {fault}" for fault in told]
    return (*faults, *_label_faults(sheet), *_cost_faults(sheet))


def _cut(cloth: ClothSheet, heaps: Heaps) -> Iterator[str]:
    """Every strip, from the bolts or, where these are not known or too few, from more cloth."""
    plan = cloth.batch.plan
    shares = [(at, strip.count) for at, strip in enumerate(plan.strips)]
    if cloth.rolls is not None:
        given = [share for bolt in cloth.rolls.bolts for share in bolt.shares]
        given += cloth.rolls.lacking
        sums: Counter[int] = Counter()
        for share in given:
            sums[share.strip] += share.count
        if dict(sums) != dict(shares):
            yield f"the bolts give strips {dict(sums)}, the plan has {dict(shares)}"
        shares = [(share.strip, share.count) for share in given]
    for at, count in shares:
        for segment in plan.strips[at].segments:
            for cut in segment.cuts:
                sides = sorted((cut.across, cut.along))
                heaps[cut.letter, (sides[0], sides[1])] += count * segment.count * cut.count


def _bolt_faults(sheet: KitSheet, cloth: ClothSheet) -> Iterator[str]:
    if cloth.rolls is None:
        return
    plan, touched = cloth.batch.plan, False
    for bolt in reversed(cloth.rolls.bolts):
        left = bolt.length - (plan.squaring if bolt.shares else 0)
        for share in bolt.shares:
            left -= plan.strips[share.strip].height * share.count
        if left < 0 and bolt.shares:
            yield f"bolt {bolt.number} is {-left} too short"
        if left != bolt.rest or bolt.used + bolt.squaring + bolt.rest != bolt.length:
            yield f"bolt {bolt.number} has {left} left, not {bolt.rest}"
        if bolt.is_end != (bool(bolt.shares) and touched):
            yield f"bolt {bolt.number}: an end or not, against the order of the bolts"
        touched = touched or bool(bolt.shares)
    if cloth.reach is None:
        yield "no word on how far the bolts go"
    elif cloth.rolls.is_enough and cloth.reach.limit < sheet.kits:
        yield "more kits are cut than the bolts' area allows"


def _pack(sheet: KitSheet, cloth: ClothSheet, heaps: Heaps) -> Iterator[str]:
    """Fill the bags from the heaps; nothing may be short and nothing may be left."""
    left = Counter(heaps)
    for parcel in cloth.cloth.parcels:
        short, long = sorted((parcel.across, parcel.along))
        left[parcel.key, (short, long)] -= (parcel.count + parcel.spare) * sheet.kits
    for (key, (short, long)), count in sorted(left.items()):
        if count:
            state = f"{count} left over" if count > 0 else f"{-count} short"
            yield f"{key} of {short} x {long}: {state} when {sheet.kits} bags are packed"


def _pass_faults(sheet: KitSheet, cloth: ClothSheet) -> Iterator[str]:
    """Stacks hold all strips, none is too high, and the passes add up."""
    total = cloth.work.squaring
    for stacking, strip in zip(cloth.work.stackings, cloth.batch.plan.strips, strict=True):
        stacked = stacking.full * stacking.layers + stacking.last
        if stacked != strip.count or not 0 <= stacking.last < stacking.layers:
            yield f"{stacked} strips in stacks, {strip.count} cut"
        if stacking.layers > sheet.book.layers:
            yield f"stacks of {stacking.layers} layers"
        total += strip.count + (stacking.full + bool(stacking.last)) * stacking.passes
    if total != cloth.work.passes:
        yield f"{total} passes of the blade, not {cloth.work.passes}"


def _list_faults(sheet: KitSheet) -> Iterator[str]:
    """The packing list against the pattern's cutting list, letter by letter."""
    publication = sheet.ordered.sized.publication
    bag: dict[str, list[Parcel]] = {}
    for cloth in sheet.cloths:
        for parcel in cloth.cloth.parcels:
            bag.setdefault(parcel.letter, []).append(parcel)
    for piece in publication.pieces:
        parcels = bag.pop(piece.letter, [])
        wanted = (piece.short, piece.long, piece.count)
        yield from (f"{piece.letter}: {f}" for f in _piece_faults(sheet, wanted, parcels))
    for name, strip in _strips(publication):
        if name in bag:
            yield from (f"{name}: {f}" for f in _piece_faults(sheet, strip, bag.pop(name)))
        elif name in {included.value for included in sheet.book.includes}:
            yield f"{name}: not in the bag"
    yield from _backing_faults(sheet, bag.pop("backing", []))
    yield from (f"{name}: in the bag, but not in the pattern" for name in bag)


def _backing_faults(sheet: KitSheet, parcels: list[Parcel]) -> Iterator[str]:
    """Sew lengths side by side, one way or the other, and see whether all tops have their back."""
    publication, design = sheet.ordered.sized.publication, sheet.ordered.design
    wanted = "backing" in {included.value for included in sheet.book.includes}
    if publication.backing is None or design.backing is None or not wanted:
        yield from ("backing: in the bag, but not asked for" for _ in parcels)
        return
    usual = Fraction(1, 2) if publication.measure == "inch" else Fraction(3, 2)
    seam = usual if design.backing.seam is None else design.backing.seam
    sides = (publication.backing.width, publication.backing.height)
    for across, along in (sides, sides[::-1]):
        for parcel in parcels:
            panels, backs = 1, max(1, parcel.across // across)
            while parcel.across * panels - 2 * seam * (panels - 1) < across:
                panels += 1
            enough = parcel.count * backs >= publication.quantity * panels
            if parcel.along >= along and enough:
                return
    yield "backing: the lengths do not cover the backs"


def _strips(publication: Publication) -> Iterator[tuple[str, tuple[Fraction, Fraction, int]]]:
    """Binding and sleeve as width, length and count; the binding may be a square for bias."""
    binding, sleeve = publication.binding, publication.sleeve
    if binding is not None and binding.square is not None:
        yield "binding", (binding.square, binding.square, publication.quantity)
    elif binding is not None:
        length = -(-binding.length // publication.step) * publication.step
        yield "binding", (binding.cut_width, length, publication.quantity)
    if sleeve is not None:
        yield "sleeve", (sleeve.cut_width, sleeve.length, publication.quantity)


def _piece_faults(
    sheet: KitSheet, wanted: tuple[Fraction, Fraction, int], parcels: list[Parcel]
) -> Iterator[str]:
    """Whole pieces in number, or strips that give the length once they are joined."""
    width, length, count = wanted
    sizes = {tuple(sorted((p.across, p.along))) for p in parcels}
    got, spare = sum(p.count for p in parcels), sum(p.spare for p in parcels)
    if sizes == {tuple(sorted((width, length)))}:
        if got != count:
            yield f"{got} in each bag, the pattern cuts {count}"
        if spare != _spares_due(sheet, max(width, length), count, parcels):
            yield f"{spare} spares in each bag"
        return
    if spare or any(p.along != width for p in parcels):
        yield "of the wrong size"
    sewn = sum((p.across * p.count for p in parcels), Fraction(0)) - width * (got - 1)
    if sewn < length * count:
        yield f"strips join to {sewn}, {count} x {length} are wanted"


def _spares_due(sheet: KitSheet, longest: Fraction, count: int, parcels: list[Parcel]) -> int:
    policy = sheet.book.spares
    if policy is None or any(p.kind.value != "piece" for p in parcels):
        return 0
    unit = Fraction(1) if sheet.ordered.sized.publication.measure == "inch" else Fraction(254, 100)
    due = 0
    while longest <= policy.up_to_inches * unit and due * policy.for_every < count:
        due += 1
    return due * policy.pieces


def _label_faults(sheet: KitSheet) -> Iterator[str]:
    """Piles hold all that is packed; bags are numbered through."""
    piled: Counter[str] = Counter()
    for pile in sheet.piles:
        piled[pile.parcel.key] += pile.count
        if pile.count < 1 or pile.count > (sheet.book.pile or pile.count):
            yield f"a pile of {pile.count} {pile.parcel.key}"
    for cloth in sheet.cloths:
        for parcel in cloth.cloth.parcels:
            packed = (parcel.count + parcel.spare) * sheet.kits
            if piled[parcel.key] != packed:
                yield f"{piled[parcel.key]} {parcel.key} in piles, {packed} packed"
    if list(sheet.bags) != [number + 1 for number in range(sheet.ordered.order.kits)]:
        yield "bags are not numbered through"


def _cost_faults(sheet: KitSheet) -> Iterator[str]:
    for line in sheet.cost.lines:
        exact = line.quantity * line.rate
        if not exact <= line.amount < exact + Fraction(1, 100):
            yield f"{line.words} costs {exact}, not {line.amount}"
    price = sheet.cost.price
    if price is None:
        if not sheet.cost.missing:
            yield "no price, though nothing is missing"
        return
    if price.costs != sum((line.amount for line in sheet.cost.lines), Fraction(0)):
        yield "the costs do not add up"
    if price.costs + price.overhead + price.margin != price.batch:
        yield "the price does not add up"
    if not price.batch <= price.each * sheet.kits < price.batch + Fraction(sheet.kits, 100):
        yield "the price of one kit is not that of the batch shared out"
