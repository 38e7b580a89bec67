"""Cutting from fat quarters, precuts and remnants."""

from collections import Counter
from dataclasses import replace

import pytest
from quicktions import Fraction

from pieceproof.cutting.demand import EIGHTH_INCH, Demand, Long, Want
from pieceproof.cutting.plan import pieces_cut
from pieceproof.cutting.sheet_check import sheet_faults
from pieceproof.cutting.sheets import Sheet, from_sheets, sheets_needed

F = Fraction
PER_FAT_QUARTER = "2:99 2.5:56 3:42 3.5:30 4:20 4.5:16 5:12 5.5:12 6:9 6.5:6"


def demand(*wants: Want, longs: tuple[Long, ...] = ()) -> Demand:
    return Demand(wants, longs, F(42), EIGHTH_INCH, F(1))


def want(letter: str, across: str, along: str, count: int, *, turnable: bool = True) -> Want:
    return Want(letter, F(*_ratio(across)), F(*_ratio(along)), count, turnable)


def _ratio(text: str) -> tuple[int, int]:
    whole, _, tenths = text.partition(".")
    return int(whole + tenths), 10 ** len(tenths)


@pytest.mark.parametrize("entry", PER_FAT_QUARTER.split())
def test_as_many_squares_as_a_fat_quarter_is_said_to_give(entry: str) -> None:
    """Check value 43 (HOHN, DBAY): squares from 18 x 22 in, nothing lost to squaring."""
    side, count = entry.split(":")
    quarter = Sheet("fat quarter", F(22), F(18), 1, F(0))
    full, more = (demand(want("A", side, side, int(count) + n)) for n in (0, 1))
    assert len(sheets_needed(full, quarter) or ()) == 1
    assert len(sheets_needed(more, quarter) or ()) == 2


@pytest.mark.parametrize(
    ("sheet", "side", "pieces", "sheets"),
    [
        # Worked out on paper.
        (Sheet("10 in square", F(10), F(10), 1, F(0)), "5", 16, 4),
        (Sheet("5 in square", F(5), F(5), 1, F(0)), "2.5", 17, 5),
        (Sheet("2 1/2 in strip", F(40), F(5, 2), 1, F(0)), "2.5", 33, 3),
        (Sheet("fat eighth", F(20), F(9), 1, F(1, 2)), "4", 20, 2),
    ],
)
def test_sheets_counted_on_paper(sheet: Sheet, side: str, pieces: int, sheets: int) -> None:
    wanted = demand(want("A", side, side, pieces))
    made = sheets_needed(wanted, sheet)
    assert made is not None
    assert len(made) == sheets
    shared = from_sheets(wanted, [replace(sheet, count=sheets)])
    assert shared.left.wants == ()
    assert sheet_faults(wanted, [replace(sheet, count=sheets)], shared) == ()


def test_a_piece_that_fits_on_no_sheet() -> None:
    quarter = Sheet("fat quarter", F(20), F(18), 1, F(1, 2))
    assert sheets_needed(demand(want("A", "21", "3", 1)), quarter) is None


def test_a_tall_piece_is_laid_down() -> None:
    """3 x 19 fits along the longer side only: six of them fill 18 in, squared along that side."""
    quarter = Sheet("fat quarter", F(20), F(18), 1, F(1, 2))
    made = sheets_needed(demand(want("A", "3", "19", 6)), quarter)
    assert made is not None
    assert [sheet.turned for sheet in made] == [True]


def test_piles_do_not_take_room_that_low_strips_would_not() -> None:
    """Worked out on paper: four squares hold an A with two D beside it, one above the other, and a
    strip of three D; the fifth the B with a C and three D; the sixth three C and the last D.

    Two strips of three D piled up, 5 3/4 high, find no room above an A.
    """
    wanted = demand(
        want("A", "5.75", "5.75", 4),
        want("B", "5.25", "5.25", 1),
        want("C", "4.5", "4.5", 4),
        want("D", "2.875", "2.875", 24),
    )
    made = sheets_needed(wanted, Sheet("10 in squares", F(10), F(10), 1, F(0)))
    assert made is not None
    assert len(made) == 6
    assert sum(map(Counter, (pieces_cut(one.plan) for one in made)), Counter()) == {
        "A": 4,
        "B": 1,
        "C": 4,
        "D": 24,
    }


def test_a_directional_piece_stays_upright() -> None:
    quarter = Sheet("fat quarter", F(20), F(18), 1, F(1, 2))
    assert sheets_needed(demand(want("A", "3", "19", 1, turnable=False)), quarter) is None


MIXED = [
    Sheet("fat quarters", F(20), F(18), 2, F(1, 2)),
    Sheet("remnant", F(31, 2), F(11), 1, F(1, 2)),
    Sheet("strip ends", F(13), F(5, 2), 5, F(0)),
]


def mixed() -> Demand:
    binding = Long("binding", F(5, 2), F(158), 1, "diagonal", F(1, 4))
    border = Long("H", F(5, 2), F(12), 2, "diagonal", F(1, 4))
    wants = (want("A", "3", "4.5", 60), want("B", "2.5", "2.5", 40))
    return demand(*wants, longs=(binding, border))


def test_a_mixed_stash_is_used_up_and_the_rest_is_left() -> None:
    shared = from_sheets(mixed(), MIXED)
    assert sheet_faults(mixed(), MIXED, shared) == ()
    assert {cut.sheet.name for cut in shared.cut} == {sheet.name for sheet in MIXED}
    assert [long.letter for long in shared.left.longs] == ["binding"]
    assert sum(want.count for want in shared.left.wants) < 30


def test_the_check_notices() -> None:
    shared = from_sheets(mixed(), MIXED)
    first = shared.cut[0]
    smaller = replace(first.sheet, length=first.plan.length)
    wrong = [
        replace(shared, cut=shared.cut[1:]),
        replace(shared, cut=(first, *shared.cut)),
        replace(shared, cut=(replace(first, sheet=smaller), *shared.cut[1:])),
        replace(shared, left=mixed()),
        replace(shared, left=replace(shared.left, longs=())),
        replace(
            shared,
            cut=(replace(first, plan=replace(first.plan, width=F(21))), *shared.cut[1:]),
        ),
    ]
    for faulty in wrong:
        assert sheet_faults(mixed(), MIXED, faulty)
    assert sheet_faults(mixed(), MIXED[1:], shared)


def test_no_sheet_holds_more_than_its_area() -> None:
    for cut in from_sheets(mixed(), MIXED).cut:
        sizes = {"A": F(27, 2), "B": F(25, 4), "H": F(30)}
        used = sum(sizes[letter] * count for letter, count in pieces_cut(cut.plan).items())
        other = cut.sheet.width + cut.sheet.length - cut.plan.width
        assert used <= cut.plan.width * (other - cut.sheet.squaring)
