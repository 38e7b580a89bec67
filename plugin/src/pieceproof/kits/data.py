"""A sheet as data for other programs, nested for JSON.

In: a sheet. Out: plain dicts, lists and words. Lengths are exact fractions in the pattern's unit,
such as ``7/2``; sums of money have two places.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from pieceproof.kits.bolts import Bolt, Share
from pieceproof.kits.changes import Changes
from pieceproof.kits.cost import Price
from pieceproof.kits.sheet import ClothSheet, KitSheet
from pieceproof.kits.words import money

Data: TypeAlias = "dict[str, Data] | list[Data] | str | int | bool | None"


def sheet_data(sheet: KitSheet, changes: Changes | None) -> Data:
    """Everything, in the order of the sheet."""
    order, price = sheet.ordered.order, sheet.cost.price
    return {
        "pattern": order.pattern,
        "size": order.size,
        "colourway": order.colourway,
        "kits": order.kits,
        "unit": sheet.measure.value,
        "usable width": str(sheet.width),
        "instead": [{"of": of, "use": use} for of, use in order.instead],
        "not in the kit": list(sheet.left_out),
        "runs out first": list(sheet.first_out),
        "bolts not stated": list(sheet.no_bolts),
        "cloths": [_cloth_data(cloth) for cloth in sheet.cloths],
        "piles": [
            {
                "key": pile.parcel.key,
                "number": pile.number,
                "of": pile.of,
                "count": pile.count,
            }
            for pile in sheet.piles
        ],
        "bags": list(sheet.bags),
        "changes": None if changes is None else _changes_data(changes),
        "cost": {
            "currency": sheet.book.currency,
            "lines": [
                {
                    "what": line.words,
                    "quantity": str(line.quantity),
                    "unit": line.unit,
                    "rate": str(line.rate),
                    "amount": money(line.amount),
                }
                for line in sheet.cost.lines
            ],
            "missing": list(sheet.cost.missing),
            "price": None if price is None else _price_data(price),
        },
    }


def _changes_data(changes: Changes) -> Data:
    return {
        "parts": [
            {
                "part": part.called,
                "before": part.before,
                "after": part.after,
                "lightness before": part.before_lightness,
                "lightness after": part.after_lightness,
                "labels": list(part.letters),
            }
            for part in changes.parts
        ],
        "words": [
            {"file": p.file, "line": p.line, "names": p.word, "text": p.text}
            for p in changes.passages
        ],
        "pictures": list(changes.outdated.pictures),
        "pages": list(changes.outdated.pages),
        "booklets": list(changes.outdated.booklets),
        "lengths": [
            {"cloth": n.cloth, "before": str(n.before), "after": str(n.after)}
            for n in changes.lengths
        ],
        "price of a kit": None
        if changes.prices is None
        else dict(zip(("before", "after"), map(money, changes.prices), strict=True)),
    }


def _cloth_data(cloth: ClothSheet) -> Data:
    plan, rolls, far = cloth.batch.plan, cloth.rolls, cloth.reach
    return {
        "cloth": cloth.cloth.name,
        "fabrics": list(cloth.cloth.fabrics),
        "usable width": str(cloth.cloth.usable_width),
        "in each bag": [
            {
                "key": parcel.key,
                "letter": parcel.letter,
                "fabric": parcel.fabric,
                "kind": parcel.kind.value,
                "across": str(parcel.across),
                "along": str(parcel.along),
                "count": parcel.count,
                "spare": parcel.spare,
            }
            for parcel in cloth.cloth.parcels
        ],
        "length": str(plan.length),
        "squaring": str(plan.squaring),
        "shortest possible": str(plan.bound),
        "planned together": str(cloth.gain.together),
        "planned one by one": str(cloth.gain.separately),
        "strips": [
            {
                "count": strip.count,
                "height": str(strip.height),
                "full stacks": stacking.full,
                "last stack": stacking.last,
                "passes a stack": stacking.passes,
                "cross-cuts": [
                    {
                        "count": segment.count,
                        "length": str(segment.length),
                        "pieces": [{"key": c.letter, "count": c.count} for c in segment.cuts],
                    }
                    for segment in strip.segments
                ],
            }
            for stacking, strip in zip(cloth.work.stackings, plan.strips, strict=True)
        ],
        "passes": cloth.work.passes,
        "bolts": None if rolls is None else [_bolt_data(bolt) for bolt in rolls.bolts],
        "strips without a bolt": None if rolls is None else _shares_data(rolls.lacking),
        "kits from the bolts": None if far is None else far.kits,
        "kits by area at most": None if far is None else far.limit,
    }


def _bolt_data(bolt: Bolt) -> Data:
    return {
        "number": bolt.number,
        "length": str(bolt.length),
        "strips": _shares_data(bolt.shares),
        "left": str(bolt.rest),
        "is an end": bolt.is_end,
    }


def _shares_data(shares: Sequence[Share]) -> Data:
    return [{"strip": share.strip + 1, "count": share.count} for share in shares]


def _price_data(price: Price) -> Data:
    return {
        "costs": money(price.costs),
        "overhead": money(price.overhead),
        "margin": money(price.margin),
        "batch": money(price.batch),
        "each kit": money(price.each),
    }
