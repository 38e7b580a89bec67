"""Kits: bolts, stacks, labels, cost and substitutes against values worked out by hand."""

from __future__ import annotations

import time
from dataclasses import replace
from fractions import Fraction as Exact

import pytest
from cloth_samples import small, with_prints
from kit_samples import bare_sheet, runner, runner_sheet, shop
from quicktions import Fraction

from pieceproof.cutting.plan import Cut, Plan, Segment, Strip
from pieceproof.cutting.planner import USUAL_EFFORT, plan
from pieceproof.kits.batch import planned
from pieceproof.kits.bolts import on_bolts
from pieceproof.kits.book import EMPTY
from pieceproof.kits.changes import changes_of
from pieceproof.kits.orders import Order, Ordered, found
from pieceproof.kits.passes import work
from pieceproof.kits.proof import kit_faults
from pieceproof.kits.sheet import KitSheet, kit_sheet

F = Fraction


def a_plan(*strips: tuple[int, int], width: int = 40) -> Plan:
    """Strips of (height, count), one piece each as wide as the cloth."""
    made = tuple(
        Strip(F(h), n, (Segment(F(width), 1, (Cut(f"P{h}", 1, False, F(width), F(h)),)),))
        for h, n in strips
    )
    length = sum((s.height * s.count for s in made), F(0))
    return Plan(F(width), F(1), made, (), length, length, True)


def test_a_bolt_is_filled_as_well_as_can_be() -> None:
    """A room of 23 holds 9 + 7 + 7; tallest first would take 9 + 9 and leave 5."""
    rolls = on_bolts(a_plan((9, 2), (7, 2)), [F(24), F(10)], F(1, 8))
    first, second = rolls.bolts
    assert [(s.strip, s.count) for s in first.shares] == [(0, 1), (1, 2)]
    assert (first.rest, first.is_end) == (0, True)
    assert [(s.strip, s.count) for s in second.shares] == [(0, 1)]
    assert (second.rest, second.is_end) == (0, False)
    assert rolls.is_enough


def test_tallest_first_where_that_saves_the_batch() -> None:
    """Rooms of 60 and 40: 58 needs the first bolt, though 30 + 30 would fill it."""
    rolls = on_bolts(a_plan((58, 1), (30, 1), (10, 1)), [F(61), F(41)], F(1, 8))
    assert rolls.is_enough


def test_a_bolt_too_short_to_square_is_left_alone() -> None:
    rolls = on_bolts(a_plan((9, 1)), [F(1, 2), F(10)], F(1, 8))
    assert rolls.bolts[0].shares == ()
    assert (rolls.bolts[0].squaring, rolls.bolts[0].rest) == (0, F(1, 2))
    assert rolls.is_enough


def test_strips_without_a_bolt_are_named() -> None:
    rolls = on_bolts(a_plan((9, 3)), [F(20)], F(1, 8))
    assert [(s.strip, s.count) for s in rolls.lacking] == [(0, 1)]


@pytest.mark.parametrize("at", range(5))
def test_how_many_kits_the_bolts_make(at: int) -> None:
    """That many are planned onto them; one more is not."""
    sheet = runner_sheet(12)
    cloth = sheet.cloths[at]
    assert cloth.reach is not None
    assert cloth.rolls is not None
    lengths = [bolt.length for bolt in cloth.rolls.bolts]
    for kits, fits in ((cloth.reach.kits, True), (cloth.reach.kits + 1, False)):
        batch, _ = planned(cloth.cloth, kits, sheet.ordered.design)
        assert on_bolts(batch.plan, lengths, F(1, 8)).is_enough is fits


def test_batches_are_planned_with_the_patterns_effort() -> None:
    """Nothing is planned twice: the same demand with the same effort is the very same plan."""
    sheet = runner_sheet(12)
    design = replace(sheet.ordered.design, planning_effort=3)
    for cloth in sheet.cloths:
        batch = cloth.batch
        assert batch.plan is plan(batch.demand, USUAL_EFFORT)[0]
        harder, _ = planned(batch.cloth, batch.kits, design)
        assert harder.plan is plan(batch.demand, 3 * USUAL_EFFORT)[0]


def test_the_fabric_that_runs_out_first() -> None:
    sheet = runner_sheet(12)
    fewest = min(cloth.reach.kits for cloth in sheet.cloths if cloth.reach is not None)
    assert sheet.first_out == tuple(
        cloth.cloth.name for cloth in sheet.cloths if cloth.reach and cloth.reach.kits == fewest
    )


def test_planning_together_saves_cloth() -> None:
    """Ten kits and more save over 8 %, as the lengths of single kits are rounded up."""
    assert all(cloth.gain.per_cent == 0 for cloth in runner_sheet(1).cloths)
    for cloth in runner_sheet(10).cloths:
        saved = 1 - Exact(cloth.gain.together) / Exact(cloth.gain.separately)
        assert Exact(8, 100) < saved
        assert 0 <= saved * 100 - Exact(cloth.gain.per_cent) < Exact(1, 10)


def test_passes_of_the_blade() -> None:
    """Ten strips of 4 x 40 into 12 pieces of 3 with 4 left over: three stacks of 1 + 12 passes.

    Two strips of 9 x 40 into 10 stacks of two 4 in pieces, 1 in trimmed off: one stack, the end,
    9 cuts across (the last piece ends at the selvage), and 2 cuts in each of ten segments.
    """
    plan = Plan(
        F(40), F(1),
        (
            Strip(F(4), 10, (Segment(F(3), 12, (Cut("A", 1, False, F(3), F(4)),)),)),
            Strip(F(9), 2, (Segment(F(4), 10, (Cut("B", 2, False, F(4), F(4)),)),)),
            Strip(F(2), 5, (Segment(F(40), 1, (Cut("C", 1, False, F(40), F(2)),)),)),
        ),
        (), F(68), F(68), True,
    )  # fmt: skip
    told = work(plan, 4, 2)
    first, second, third = told.stackings
    assert (first.full, first.last, first.passes) == (2, 2, 13)
    assert (second.full, second.last, second.passes) == (0, 2, 1 + 9 + 20)
    assert third.passes == 0
    assert told.passes == 2 + 17 + 3 * 13 + 30


def test_what_lies_in_a_bag_of_the_runner() -> None:
    """The cutting list; border and binding as the strips that the customer joins.

    Two borders of 3 x 58 from cloth 42 wide, joined on the diagonal, which eats 3 in: 116 in are
    42 + 42 + 38 - 6. The binding of 158 in: 42 + 42 + 42 + 39 1/2 - 3 x 2 1/2.
    """
    sheet = runner_sheet(12)
    held = {
        parcel.key: (parcel.across, parcel.along, parcel.count, parcel.spare)
        for cloth in sheet.cloths
        for parcel in cloth.cloth.parcels
    }
    assert held["C"] == (F(11, 4), F(11, 4), 40, 2)
    assert held["D"] == (F(9, 2), F(9, 2), 5, 0)
    assert held["G"] == (42, 3, 2, 0)
    assert held["G end"] == (38, 3, 1, 0)
    assert held["binding"] == (42, F(5, 2), 3, 0)
    assert held["binding end"] == (F(79, 2), F(5, 2), 1, 0)
    assert sheet.left_out == ("backing", "batting")


def test_a_kit_with_its_backing() -> None:
    text = b"includes: [binding, backing]\nover inches: 1/2\n"
    sheet = runner_sheet(3, shop(text))
    back = next(p for c in sheet.cloths for p in c.cloth.parcels if p.letter == "backing")
    assert sheet.left_out == ("batting",)
    # The top is 57 1/2 x 16 1/2, with 4 in more on each side 65 1/2 x 24 1/2: two widths of the
    # cloth, 24 1/2 long and sewn with 1/2 in, cover 83 in. Each is cut 1/2 in longer.
    assert (back.across, back.along, back.count) == (42, 25, 2)
    assert kit_faults(sheet) == ()
    for changed in ({"count": 1}, {"along": F(24)}, {"across": F(30)}):
        worse = [
            replace(c, batch=replace(c.batch, cloth=replace(c.cloth, parcels=tuple(
                replace(p, **changed) if p is back else p for p in c.cloth.parcels
            ))))
            for c in sheet.cloths
        ]  # fmt: skip
        faults = kit_faults(replace(sheet, cloths=tuple(worse)))
        assert "backing: the lengths do not cover the backs" in faults


def test_piles_and_bags() -> None:
    sheet = runner_sheet(12)
    c = [pile for pile in sheet.piles if pile.parcel.key == "C"]
    assert [(pile.number, pile.of, pile.count) for pile in c] == [
        (1, 3, 200), (2, 3, 200), (3, 3, 104),
    ]  # fmt: skip
    assert sheet.bags == tuple(range(1, 13))


def test_cost_by_hand() -> None:
    """One cloth, 2 kits: two 10 in squares each, four abreast: one strip and squaring, 11 in."""
    text = b"""
sold by: yard
currency: fares
cloths: [{name: ground, price: 9.00, bolts: [1]}]
pattern prices: {sample: 3.00}
packing: [{name: bag, each: 0.25}]
minutes: {once: 10, each pass: 1, each kit: 5}
wage: 12.00
overhead: 10
margin: 50
"""
    sheet = bare_sheet(small({"ground": [(F(10), F(10), 2, "top")]}), 2, shop(text))
    assert sheet is not None
    amounts = {line.words: line.amount for line in sheet.cost.lines}
    # Passes: squaring, the strip, one end of it, and 4 cuts across (40 of 42 in used): 7.
    assert sum(cloth.work.passes for cloth in sheet.cloths) == 7
    assert amounts == {
        "ground": F("2.75"),  # 11/36 x 9.00
        "pattern": 6,
        "bag": F("0.5"),
        "work": F("5.4"),  # 27 minutes
    }
    price = sheet.cost.price
    assert price is not None
    assert price.costs == F("14.65")
    assert price.overhead == F("1.47")  # 1.465, rounded up
    assert price.batch == F("32.24")  # 16.12 is half of it
    assert price.margin == F("16.12")
    assert price.each == F("16.12")
    assert kit_faults(sheet) == ()


def test_nothing_is_invented_for_a_shop_that_states_nothing() -> None:
    sheet = runner_sheet(5, EMPTY)
    assert sheet.cost.price is None
    assert sheet.cost.lines == ()
    assert sheet.cost.missing == (
        "`currency`",
        *(f"`price` of the cloth {cloth.cloth.name}" for cloth in sheet.cloths),
        "`pattern prices` of heron-landing",
        *("`packing`", "`minutes`", "`wage`", "`overhead`", "`margin`"),
    )
    assert len(sheet.no_bolts) == len(sheet.cloths)
    assert sheet.first_out == ()
    assert kit_faults(sheet) == ()


DRAWN = [(width, hand) for width in (42, 40, 44, 54, 108) for hand in ("right", "left")]


def test_what_a_substitute_changes() -> None:
    sheet = runner_sheet(100, instead=(("Ferry Ochre", "Lamp Gold"),))
    lines = {"patterns/heron-landing/prose.md": ("Quilt it.", "Ferry Ochre glows at low water.")}
    changes = changes_of(sheet, runner(), lines)
    assert changes is not None
    assert [(p.called, p.after, p.letters) for p in changes.parts] == [
        ("star centres", "Lamp Gold", ("D",)),
        ("binding", "Lamp Gold", ("binding",)),
    ]
    summary, *prose = changes.passages
    assert (summary.file, summary.line) == ("patterns/heron-landing/pattern.yaml", 3)
    assert (summary.word, summary.text[:19]) == ("Low Water", "Stars in a line, li")
    assert [(p.line, p.word) for p in prose] == [(2, "Ferry Ochre"), (2, "Low Water")]
    tops = ("top-middle-low-water.svg", "top-middle-low-water.png")
    strips = (f"cloth-heart-3-middle-{width}-low-water-{hand}.svg" for width, hand in DRAWN)
    assert changes.outdated.pictures == (*tops, *strips)
    # The card in the catalogue shows the first size and all colourways by their dots.
    folder = "patterns/heron-landing/"
    own = (f"{folder}{page}index.html" for page in ("", "colours/", "auditions/"))
    assert changes.outdated.pages == ("patterns/index.html", *own)
    plain = runner_sheet(100)
    used = {cloth.cloth.name: cloth.used_up for cloth in plain.cloths}
    lengths = {length.cloth: (length.before, length.after) for length in changes.lengths}
    assert lengths["Ferry Ochre"] == (used["Ferry Ochre"], 0)
    assert changes_of(plain, runner(), lines) is None
    same = runner_sheet(100, instead=(("Ferry Ochre", "Ferry Ochre"),))
    assert changes_of(same, runner(), lines) is None


def test_cloths_that_become_one_are_planned_together() -> None:
    """The sashing's cloth stands in for the stars': one cloth, one plan."""
    plain, swapped = (
        runner_sheet(8, instead=instead) for instead in ((), (("Wet Slate", "Reed Bed"),))
    )
    assert len(swapped.cloths) == len(plain.cloths) - 1
    reed = next(cloth for cloth in swapped.cloths if cloth.cloth.name == "Reed Bed")
    assert set(reed.cloth.fabrics) == {"wing", "stage"}
    assert kit_faults(swapped) == ()


def test_a_width_of_ones_own() -> None:
    sheet = runner_sheet(6, width=F(54))
    assert all(cloth.batch.plan.width == 54 for cloth in sheet.cloths)
    assert kit_faults(sheet) == ()


def test_a_thousand_kits_take_seconds() -> None:
    start = time.process_time()
    sheet = runner_sheet(1000)
    assert kit_faults(sheet) == ()
    assert time.process_time() - start < 15


def test_the_shop_s_sheets_are_proved() -> None:
    for kits in (1, 12, 100):
        assert kit_faults(runner_sheet(kits)) == ()


SOUND = runner_sheet(12)


def one_more_kit() -> KitSheet:
    return replace(
        SOUND, ordered=replace(SOUND.ordered, order=replace(SOUND.ordered.order, kits=13))
    )


def with_parcel(**changed: object) -> KitSheet:
    """The first cloth's first parcel changed, in the packing list only."""
    first = SOUND.cloths[0]
    parcels = first.cloth.parcels
    cloth = replace(first.cloth, parcels=(replace(parcels[0], **changed), *parcels[1:]))
    sheet = replace(first, batch=replace(first.batch, cloth=cloth))
    return replace(SOUND, cloths=(sheet, *SOUND.cloths[1:]))


def with_bolt(**changed: object) -> KitSheet:
    first = SOUND.cloths[0]
    assert first.rolls is not None
    bolts = (replace(first.rolls.bolts[0], **changed), *first.rolls.bolts[1:])
    sheet = replace(first, rolls=replace(first.rolls, bolts=bolts))
    return replace(SOUND, cloths=(sheet, *SOUND.cloths[1:]))


def with_price(**changed: object) -> KitSheet:
    assert SOUND.cost.price is not None
    price = replace(SOUND.cost.price, **changed)
    return replace(SOUND, cost=replace(SOUND.cost, price=price))


def with_work(**changed: object) -> KitSheet:
    first = SOUND.cloths[0]
    sheet = replace(first, work=replace(first.work, **changed))
    return replace(SOUND, cloths=(sheet, *SOUND.cloths[1:]))


@pytest.mark.parametrize(
    ("sheet", "said"),
    [
        (one_more_kit(), "short when 13 bags are packed"),
        (with_parcel(count=21), "12 short"),
        (with_parcel(count=19), "the pattern cuts 20"),
        (with_parcel(spare=1), "1 spares in each bag"),
        (with_parcel(across=F(4)), "of the wrong size"),
        (with_parcel(letter="Z"), "in the bag, but not in the pattern"),
        (with_bolt(length=F(50)), "too short"),
        (with_bolt(rest=F(1)), "left, not 1"),
        (with_bolt(shares=()), "the bolts give strips"),
        (with_bolt(is_end=True), "against the order of the bolts"),
        (with_work(strips=1), "passes of the blade"),
        (with_price(costs=F(1)), "do not add up"),
        (with_price(margin=F(1)), "does not add up"),
        (with_price(each=F(1)), "is not that of the batch"),
        (replace(SOUND, piles=SOUND.piles[1:]), "in piles"),
        (replace(SOUND, bags=SOUND.bags[:-1]), "numbered through"),
        (replace(SOUND, cloths=SOUND.cloths[1:]), "A: "),
    ],
)
def test_the_proof_notices(sheet: KitSheet, said: str) -> None:
    assert kit_faults(SOUND) == ()
    assert any(said in fault for fault in kit_faults(sheet)), kit_faults(sheet)


def test_kits_do_not_plan_motifs() -> None:
    ordered = found(Order("heron-landing", "middle", "low-water", 2), runner(), EMPTY)
    assert isinstance(ordered, Ordered)
    design, _ = with_prints((ordered.design, ordered.sized.publication))
    sheet, sentences = kit_sheet(replace(ordered, design=design), EMPTY)
    assert sheet is None
    assert sentences == ("D: cut motif by motif; kits do not plan that",)
