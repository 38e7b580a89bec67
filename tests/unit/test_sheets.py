"""Shapes on sheets: nothing lost, nothing over the edge, joined sheets agree where they meet."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pieceproof.booklet.sheets import OVERLAP, Room, Sheet, sheets_of
from pieceproof.booklet.true_scale import Ink, Run, Shape

ROOM = Room(190.0, 220.0)


def shape(width: float, height: float, copies: int = 1, name: str = "A") -> Shape:
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    return Shape(name, name, name, copies, width, height, (Run(Ink.CUT, corners, True),))


def drawn(sheet: Sheet) -> list[tuple[float, float]]:
    return [
        (each.left + x, each.top + y)
        for each in sheet.laid
        for run in each.shape.runs
        for x, y in run.places
    ]


@given(
    st.lists(
        st.tuples(st.floats(5, 700), st.floats(5, 700), st.integers(1, 60)), min_size=1, max_size=6
    )
)
def test_all_copies_are_on_the_sheets_and_inside_them(
    sizes: list[tuple[float, float, int]],
) -> None:
    shapes = [shape(w, h, n, str(at)) for at, (w, h, n) in enumerate(sizes)]
    sheets = sheets_of(shapes, ROOM)
    for sheet in sheets:
        for x, y in drawn(sheet):
            assert 0 <= x <= ROOM.width
            assert 0 <= y <= ROOM.height
    for wanted in shapes:
        whole = [s for s in sheets if not s.part]
        count = sum(s.times * sum(e.shape.name == wanted.name for e in s.laid) for s in whole)
        parts = [s for s in sheets if s.part and s.title == wanted.name]
        assert count == wanted.copies or (parts and {s.times for s in parts} == {wanted.copies})


@given(st.lists(st.tuples(st.floats(5, 180), st.floats(5, 200)), min_size=2, max_size=8))
def test_shapes_on_a_sheet_do_not_overlap(sizes: list[tuple[float, float]]) -> None:
    for sheet in sheets_of([shape(w, h, 3, str(at)) for at, (w, h) in enumerate(sizes)], ROOM):
        boxes = [
            (e.left, e.top, e.left + e.shape.width, e.top + e.shape.height) for e in sheet.laid
        ]
        for i, (l1, t1, r1, b1) in enumerate(boxes):
            for l2, t2, r2, b2 in boxes[:i]:
                assert r1 <= l2 or r2 <= l1 or b1 <= t2 or b2 <= t1


def test_joined_sheets_cover_the_shape_and_share_their_joining_line() -> None:
    sheets = sheets_of([shape(180.0, 500.0, 2)], ROOM)
    assert [sheet.part for sheet in sheets] == [f"sheet {n} of 3" for n in (1, 2, 3)]
    assert {sheet.times for sheet in sheets} == {2}
    window = ROOM.height - 2 - 7
    heights = [sheet.laid[0].shape.height for sheet in sheets]
    assert sum(heights) - 2 * OVERLAP == pytest.approx(500.0)
    joins = [
        [run.places[0][1] for run in sheet.laid[0].shape.runs if run.ink is Ink.JOIN]
        for sheet in sheets
    ]
    assert joins[0] == pytest.approx([window - OVERLAP / 2])
    assert joins[1] == pytest.approx([OVERLAP / 2, window - OVERLAP / 2])
    assert joins[2] == pytest.approx([OVERLAP / 2])


def test_an_empty_sheet_is_left_out() -> None:
    """A right angle of two long arms leaves the far corner empty."""
    corners = (
        (0.0, 0.0), (330.0, 0.0), (330.0, 20.0), (20.0, 20.0), (20.0, 380.0), (0.0, 380.0),
    )  # fmt: skip
    angle = Shape("L", "L", "L", 1, 330.0, 380.0, (Run(Ink.CUT, corners, True),))
    assert len(sheets_of([angle], ROOM)) == 3


def test_sheets_are_shared_where_that_prints_no_more_paper() -> None:
    """Three of one and fifteen of another: a sheet with one and five, printed three times."""
    sheets = sheets_of([shape(90.0, 90.0, 3, "a"), shape(90.0, 40.0, 15, "b")], ROOM)
    assert [(sheet.times, len(sheet.laid)) for sheet in sheets] == [(3, 6)]
    assert [sheet.times for sheet in sheets_of([shape(90.0, 90.0, 4)], ROOM)] == [1]
