"""The planner on published instances; `instances/ORIGIN.md` names their sources.

Strips: the lengths of Hopper and Turton's instances (Eur. J. Oper. Res. 128 (2001) 34-57) for
strips that hold one layer of pieces lying as listed were found by two independent programs outside
this repository. With quarter turns the strips are shorter; those lengths are the planner's own
proofs, and one is laid out by hand.

Sheets: the most valuable two-stage cuttings, best known values from the instances' repository. A
model of its own finds the value; the pieces it cuts must fit into the sheet by the planner too.
"""

import csv

import pytest
from classic import INSTANCES, Instance, roll, sheet_instance, strip_instance
from level_model import best_cutting
from quicktions import Fraction

from pieceproof.cutting.board import Board, board_of, length
from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.effort import STEPS_PER_SECOND, Effort
from pieceproof.cutting.greedy import separate_strips
from pieceproof.cutting.grid import grid_of, length_of
from pieceproof.cutting.planner import plan
from pieceproof.cutting.shortest import shortest

STRIPS = sorted((INSTANCES / "strip_classic").glob("*.txt"))
SLOW = {f"hifi1997a/A{number}" for number in (3, 4, 5)}  # seconds each for the model
AS_LISTED = {
    "C1_1": 25, "C1_2": 28, "C1_3": 28,
    "C2_1": 39, "C2_2": 36, "C2_3": 36,
    "C3_1": 16, "C3_2": 19, "C3_3": 16,
}  # fmt: skip
TURNED = {"C1_1": 22, "C1_2": 22, "C1_3": 22}


def one_layer(instance: Instance, turnable: bool) -> tuple[Board, int]:
    """The board without stacked pieces, and the length of strips for each size."""
    grid = grid_of(roll(instance, turnable))
    board = board_of(grid)
    slots = tuple(tuple(slot._replace(stack=1) for slot in some) for some in board.slots)
    return board._replace(slots=slots), length_of(separate_strips(grid)) // board.unit


def hopper(name: str) -> Instance:
    return strip_instance((INSTANCES / "strip_classic" / f"hopper2001a_{name}.txt").read_text())


@pytest.mark.parametrize(("turnable", "name", "least"), [
    *((False, *case) for case in AS_LISTED.items()),
    *((True, *case) for case in TURNED.items()),
])  # fmt: skip
def test_the_least_length_of_strips_with_one_layer(turnable: bool, name: str, least: int) -> None:
    board, known = one_layer(hopper(name), turnable)
    found = shortest(board, known, Effort(3 * STEPS_PER_SECOND))
    assert ({length(board, cuts) for cuts in found.plans}, found.bound) == ({least}, least)


def test_a_strip_plan_with_turns_beats_the_length_said_to_be_its_least() -> None:
    """25 is also quoted for C1_1 *with* quarter turns; these five strips of 20 take 22."""
    strips = [
        (2, [(9, 2), (11, 2)]),
        (5, [(3, 4), (5, 5), (12, 3)]),
        (2, [(3, 2), (4, 2), (12, 2)]),
        (6, [(2, 6), (3, 6), (3, 5), (4, 4), (8, 6)]),
        (7, [(3, 7), (5, 7), (12, 7)]),
    ]
    assert sum(height for height, _ in strips) == 22
    for height, pieces in strips:
        assert sum(across for across, _ in pieces) <= 20
        assert max(along for _, along in pieces) <= height
    cut = sorted(tuple(sorted(piece)) for _, pieces in strips for piece in pieces)
    listed = [tuple(sorted((item.length, item.width))) for item in hopper("C1_1").items]
    assert cut == sorted(listed)


@pytest.mark.parametrize("file", STRIPS, ids=lambda file: file.stem)
def test_a_sound_plan_for_every_instance(file) -> None:  # type: ignore[no-untyped-def]
    demand = roll(strip_instance(file.read_text()))
    found, problems = plan(demand, STEPS_PER_SECOND // 20)
    assert problems == ()
    assert plan_faults(demand, found) == ()
    area = sum((want.across * want.along * want.count for want in demand.wants), Fraction(0))
    assert area <= found.bound * found.width <= found.length * found.width


def sheets() -> list[tuple[str, str, int]]:
    table = csv.DictReader((INSTANCES / "two_stage_classic" / "best_known.csv").open())
    return [
        (row["Path"], row["Options"], int(row["Best known solution value"]))
        for row in table
        if row["Path"] not in SLOW
    ]


@pytest.mark.parametrize(("name", "levels", "value"), sheets())
def test_the_most_valuable_pieces_fit_the_sheet(name: str, levels: str, value: int) -> None:
    file = INSTANCES / "two_stage_classic" / f"{name.replace('/', '_')}.txt"
    sheet = sheet_instance(file.read_text())
    if levels == "Vertical":
        turned = (item._replace(length=item.width, width=item.length) for item in sheet.items)
        sheet = Instance(sheet.width, sheet.length, tuple(turned))
    worth, pieces = best_cutting(sheet)
    assert worth == value
    demand = roll(sheet._replace(items=pieces), turnable=False)
    found, _ = plan(demand)
    assert plan_faults(demand, found) == ()
    assert found.length <= sheet.width
