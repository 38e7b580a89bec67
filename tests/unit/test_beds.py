"""Bed sizes: what to aim at, by how much a size misses it, what comes nearest.

Numbers in brackets are lines of the check values. QC: a magazine's page on bed sizes. PAM: a
quilter's page on overhang. Both were recomputed.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from finishing_samples import GOOSE, MITRED, OF_GEESE, design_of
from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction
from whole_path import WATER

from pieceproof.beds import Hang, bed_fit, bed_words, hang, mattress_of, target
from pieceproof.converted import about
from pieceproof.model import Bed, Cell, Design, Mattress, Measure, Medallion, PlainRound, Size

F = Fraction
QUEEN = Bed(Mattress.QUEEN, F(12))


def quilt(across: int, down: int, bed: Bed | None = QUEEN, block: int = 12) -> Design:
    """Blocks of one size in a mitred border 3 wide."""
    design = design_of(F(block), F(block), (MITRED,))
    return replace(design, setting=replace(design.setting, across=across, down=down), bed=bed)


def test_a_queen_bed_with_a_drop_of_twelve() -> None:
    """[96] QC: 60 x 80 and 12 give 84 x 92."""
    assert target(QUEEN, Measure.INCH) == Size(F(84), F(92))


@pytest.mark.parametrize(
    ("mattress", "top", "found"),
    [
        (Size(F(60), F(80)), Size(F(104), F(122)), Hang(F(22), F(20))),
        (Size(F(72), F(84)), Size(F(106), F(106)), Hang(F(17), F(5))),
    ],
)
def test_read_backwards(mattress: Size, top: Size, found: Hang) -> None:
    """[98] PAM: 104 x 122 on 60 x 80 hangs 22 and leaves 20 for pillows; 106 square on 72 x 84."""
    assert hang(mattress, top) == found


def test_mattresses_are_those_in_print() -> None:
    """[95] QC. King is also printed as 78 wide, which a shop may state."""
    inches = {
        "twin": (39, 75), "twin xl": (39, 80), "full": (54, 75), "queen": (60, 80),
        "king": (76, 80), "california king": (72, 84),
    }  # fmt: skip
    for mattress in Mattress:
        size = mattress_of(Bed(mattress, F(10)), Measure.INCH)
        assert (size.width, size.height) == inches[mattress.value]
    wide = Bed(Mattress.KING, F(10), Size(F(78), F(80)))
    assert target(wide, Measure.INCH) == Size(F(98), F(90))


def test_there_is_no_cot_to_choose() -> None:
    """[95] QC lists cribs of 27 or 28 x 52; [100] 27 1/4 x 51 1/4 at least. Infants sleep without
    quilts (CPSC), so neither is offered; [99] the inside of a crib is 28 x 52 3/8 in, 71 x 133 cm
    (16 CFR 1508.3), as our other unit has it too."""
    cots = {Size(F(27), F(52)), Size(F(28), F(52)), Size(F(109, 4), F(205, 4))}
    offered = {mattress_of(Bed(mattress, F(10)), Measure.INCH) for mattress in Mattress}
    assert not offered & cots
    assert about(Measure.INCH, F(28), F(419, 8)) == "71 x 133 cm"


def test_centimetres_are_exact() -> None:
    """60 in are 152.4 cm by the inch of 25.4 mm."""
    size = mattress_of(Bed(Mattress.QUEEN, F(30)), Measure.CENTIMETRE)
    assert size == Size(F(1524, 10), F(2032, 10))


def test_the_nearest_counts_and_border() -> None:
    """6 x 7 blocks of 12 are 72 x 84; with 84 x 92 to reach, 4 are missing on one side only."""
    fit = bed_fit(quilt(4, 5))
    assert fit is not None
    assert (fit.top, fit.target) == (Size(F(54), F(66)), Size(F(84), F(92)))
    assert (fit.nearest.counts, fit.nearest.border) == ((6, 7), F(5))
    assert bed_words(quilt(4, 5)) == (
        "A queen bed with a drop of 12 wants 84 x 92; this size is 30 too narrow and 26 too short.",
        "6 across and 7 down and an outer border 5 wide make 82 x 94, 2 too narrow and 2 too long.",
    )


def test_a_size_that_is_right_says_so() -> None:
    bed = Bed(Mattress.QUEEN, F(12), Size(F(54), F(66)))
    right = quilt(6, 6, bed)
    assert bed_words(right) == (
        "A queen bed with a drop of 12 wants 78 x 78; this size is just right.",
        "No other number of blocks and no other border comes nearer.",
    )


def test_no_bed_no_words() -> None:
    assert bed_words(quilt(2, 2, None)) == ()


def test_a_pieced_border_is_kept_whole() -> None:
    """Only counts at which the geese still fit are proposed: 12 in blocks always fit 3 in units."""
    design = quilt(4, 5)
    pieced = replace(design, borders=(OF_GEESE,), units={**design.units, "goose": GOOSE})
    fit = bed_fit(pieced)
    assert fit is not None
    assert (fit.nearest.top, fit.nearest.border) == (Size(F(87), F(87)), None)


def test_a_medallion_has_only_its_border_to_change() -> None:
    medallion = Medallion(Cell("middle"), (PlainRound(WATER, F(3)),))
    design = replace(quilt(1, 1, Bed(Mattress.TWIN, F(6)), block=40), setting=medallion)
    assert (
        bed_words(design)[1]
        == "An outer border 10 wide makes 66 x 66, 15 too wide and 15 too short."
    )


@settings(max_examples=25, deadline=None)
@given(
    st.integers(1, 9), st.integers(1, 9), st.integers(6, 15), st.sampled_from(Mattress),
    st.integers(8, 20),
)  # fmt: skip
def test_what_is_proposed_is_never_worse(
    across: int, down: int, block: int, mattress: Mattress, drop: int
) -> None:
    fit = bed_fit(quilt(across, down, Bed(mattress, F(drop)), block))
    assert fit is not None

    def miss(top: Size) -> Fraction:
        return max(abs(top.width - fit.target.width), abs(top.height - fit.target.height))

    assert miss(fit.nearest.top) <= miss(fit.top)
    assert miss(fit.nearest.top) <= block
