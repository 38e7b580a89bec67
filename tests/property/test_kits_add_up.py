"""Random cutting lists, batches, spares and bolts: what is cut is what is packed, on every bolt.

The counting here is this file's own: it walks the strips of the bolts and takes pieces off them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from cloth_samples import Sized, small
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from kit_samples import bare_sheet
from quicktions import Fraction

from pieceproof.kits.book import EMPTY, Included, ShopCloth, SoldBy, Spares
from pieceproof.kits.proof import kit_faults
from pieceproof.layout import CENTRE, TOP
from pieceproof.model import Amount, Measure

F = Fraction


@st.composite
def lists(draw: st.DrawFn) -> Sized:
    """One or two fabrics of up to two lines, in inches or centimetres, perhaps bound."""
    measure = draw(st.sampled_from(Measure))
    scale = 1 if measure is Measure.INCH else F(5, 2)

    def length(least: int, most: int) -> st.SearchStrategy[F]:
        low, high = (int(end * scale / measure.step) for end in (least, most))
        return st.integers(low, high).map(lambda steps: steps * measure.step)

    piece = st.tuples(
        length(1, 20), length(1, 70), st.integers(1, 40), st.sampled_from([TOP, CENTRE, "star"])
    ).map(lambda p: (min(p[:2]), max(p[:2]), *p[2:]))
    names = ["ground", "wing"][: draw(st.integers(1, 2))]
    binding = st.tuples(st.sampled_from(names), st.just(F(5, 2)), length(40, 300))
    return small(
        {name: draw(st.lists(piece, min_size=1, max_size=2)) for name in names},
        measure,
        draw(st.none() | binding),
        quantity=draw(st.integers(1, 3)),
    )


BOLTS = st.lists(st.integers(0, 400).map(lambda n: Amount(F(n, 8))), min_size=1, max_size=4)


@settings(max_examples=25, deadline=None)
@given(
    lists(),
    st.integers(1, 300),
    st.tuples(BOLTS, BOLTS),
    st.none() | st.builds(Spares, st.integers(1, 50), st.just(F(4)), st.integers(1, 3)),
    st.none() | st.integers(1, 500),
    st.integers(1, 6),
)
def test_what_is_cut_is_packed(
    sample: Sized,
    kits: int,
    bolts: tuple[list[Amount], list[Amount]],
    spares: Spares | None,
    most: int | None,
    layers: int,
) -> None:
    cloths = tuple(
        ShopCloth(name, Amount(F(9)), tuple(lengths))
        for name, lengths in zip(("ground", "wing"), bolts, strict=True)
    )
    book = replace(
        EMPTY,
        sold_by=SoldBy.METRE,
        includes=(Included.BINDING,),
        spares=spares,
        pile=most,
        layers=layers,
        cloths=cloths,
    )
    sheet = bare_sheet(sample, kits, book)
    assume(sheet is not None)
    assert sheet is not None
    assert kit_faults(sheet) == ()
    cut: Counter[str] = Counter()
    for cloth in sheet.cloths:
        assert cloth.rolls is not None
        strips = cloth.batch.plan.strips
        for bolt in cloth.rolls.bolts:
            taken = sum((strips[s.strip].height * s.count for s in bolt.shares), F(0))
            assert taken + (cloth.batch.plan.squaring if bolt.shares else 0) <= bolt.length
        shares = [s for bolt in cloth.rolls.bolts for s in bolt.shares] + [*cloth.rolls.lacking]
        for share in shares:
            for segment in strips[share.strip].segments:
                for piece in segment.cuts:
                    cut[piece.letter] += share.count * segment.count * piece.count
    packed: Counter[str] = Counter()
    for cloth in sheet.cloths:
        for parcel in cloth.cloth.parcels:
            packed[parcel.key] += kits * (parcel.count + parcel.spare)
    assert cut == packed
    piled: Counter[str] = Counter()
    for pile in sheet.piles:
        piled[pile.parcel.key] += pile.count
    assert piled == packed
    assert len(sheet.bags) == kits
    _, publication = sample
    listed = {piece.letter: piece.count for piece in publication.pieces}
    for cloth in sheet.cloths:
        for parcel in cloth.cloth.parcels:
            if parcel.kind.value == "piece":
                assert parcel.count == listed[parcel.letter]
