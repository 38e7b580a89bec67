"""Pieces cut around motifs, as drawn: held against the plan and against the print's repeat."""

from __future__ import annotations

from functools import cache

import pytest
from cloth_samples import published
from examples import publish_one, runner
from hypothesis import given
from hypothesis import strategies as st
from quicktions import Fraction
from text_boxes import frame_of, overlaps

from pieceproof.cutting.demand import Demand
from pieceproof.cutting.plan import Plan
from pieceproof.cutting.planner import empty_plan
from pieceproof.diagrams.strips import cutting, left_handed, strips
from pieceproof.diagrams.subject import Subject, subject
from pieceproof.drawing.scene import Area, AreaKind, Letter, Line, LineKind, Note, Scene, flat
from pieceproof.fussy import Fussy, fussy_cut
from pieceproof.model import Motif
from pieceproof.requirements import need_for, requirements

F = Fraction
Box = tuple[float, float, float, float]


@cache
def seen() -> Subject:
    return subject(*publish_one(runner()))


def bare(width: Fraction) -> Plan:
    return empty_plan(Demand((), (), width, F(1, 8), F(1)))


def fussy(size: tuple[Fraction, Fraction], count: int, motif: Motif, width: Fraction) -> Fussy:
    found = fussy_cut("F", size, count, motif, width)
    assert found is not None
    return found


def boxes(scene: Scene, kind: AreaKind) -> list[Box]:
    """The extents of areas from the top down and from the left."""
    found = []
    for area in (i for i in flat(scene.items) if isinstance(i, Area) and i.kind is kind):
        xs, ys = zip(*((float(x), float(y)) for x, y in area.points), strict=True)
        found.append((min(xs), min(ys), max(xs), max(ys)))
    return sorted(found, key=lambda box: (round(box[1], 6), box[0]))


def the_length(scene: Scene) -> Box:
    """The largest piece of cloth that is drawn unfilled."""
    return max(boxes(scene, AreaKind.OFFCUT), key=lambda box: box[3] - box[1])


LANTERNS = fussy((F(37, 8), F(37, 8)), 8, Motif(F(6), F(6)), F(42))
"""Eight pieces of 4 5/8 on lanterns 6 apart: six and two, in 6 + 4 5/8 and one repeat of cloth."""


def test_rows_lie_in_the_middle_of_the_length_and_repeats_apart() -> None:
    scene = cutting(seen(), ("water",), bare(F(42)), (LANTERNS,))
    pieces, length = boxes(scene, AreaKind.PIECE), the_length(scene)
    assert length[3] - length[1] == pytest.approx(16.625)
    # Six side by side take 5 x 6 + 4 5/8, so 3 11/16 of the 42 are left on either side.
    assert [box[0] for box in pieces] == pytest.approx([3.6875 + 6 * i for i in (*range(6), 0, 1)])
    assert [box[1] - length[1] for box in pieces] == pytest.approx([3.0] * 6 + [9.0] * 2)
    assert {round(box[2] - box[0], 6) for box in pieces} == {4.625}
    assert {round(box[3] - box[1], 6) for box in pieces} == {4.625}
    letters = [i for i in flat(scene.items) if isinstance(i, Letter)]
    assert [letter.text for letter in letters] == ["F"] * 8


def test_half_of_the_spare_repeat_is_hatched_on_either_side() -> None:
    scene = cutting(seen(), ("water",), bare(F(42)), (LANTERNS,))
    length = the_length(scene)
    bands = [b for b in boxes(scene, AreaKind.OFFCUT) if b[1] >= length[1] and b != length]
    assert [(b[1] - length[1], b[3] - length[1]) for b in bands] == [
        pytest.approx((0, 3)), pytest.approx((13.625, 16.625)),
    ]  # fmt: skip


def test_pieces_too_small_for_letters_share_one_below() -> None:
    many = fussy((F(3, 2), F(3, 2)), 50, Motif(F(3), F(3)), F(42))
    scene = cutting(seen(), ("water",), bare(F(42)), (many,))
    (letter,) = (i for i in flat(scene.items) if isinstance(i, Letter))
    assert letter.text == "F"
    assert float(letter.at[1]) > the_length(scene)[3]
    assert not overlaps(scene, 360)


def test_it_is_told() -> None:
    scene = cutting(seen(), ("water",), bare(F(42)), (LANTERNS,))
    assert scene.title.endswith(": one length")
    assert (
        'Length of 16 5/8" for 8 F with motifs: 6 side by side, 6" from middle to middle; '
        'two rows, 6" apart, take 10 5/8"; hatched: one repeat more, 6", wherever the shop cuts.'
    ) in scene.desc


def rings(scene: Scene) -> list[Line]:
    """Rings and what is left of them; hatching and leaders have two ends."""
    lines = (i for i in flat(scene.items) if isinstance(i, Line) and i.kind is LineKind.LEADER)
    return [line for line in lines if len(line.points) > 2]


sizes = st.integers(8, 64).map(lambda eighths: F(eighths, 8))
repeats = st.integers(8, 96).map(lambda eighths: F(eighths, 8))


@given(sizes, sizes, repeats, repeats, st.integers(1, 60))
def test_every_piece_has_a_motif_in_its_middle_and_lies_on_the_cloth(
    one: Fraction, other: Fraction, across: Fraction, along: Fraction, count: int
) -> None:
    width = F(42)
    found = fussy_cut("F", (min(one, other), max(one, other)), count, Motif(across, along), width)
    if found is None:
        return
    scene = cutting(seen(), ("water",), bare(width), (found,))
    pieces, length = boxes(scene, AreaKind.PIECE), the_length(scene)
    last_row = count - (found.rows - 1) * found.abreast
    rows = min(found.rows, 5)
    assert len(pieces) == (rows - 1) * found.abreast + last_row
    for left, top, right, bottom in pieces:
        assert left >= -1e-9
        assert right <= float(width) + 1e-9
        assert length[1] - 1e-9 <= top
        assert bottom <= length[3] + 1e-9
        for middle, first, repeat in (
            ((left + right) / 2, (pieces[0][0] + pieces[0][2]) / 2, across),
            ((top + bottom) / 2, (pieces[0][1] + pieces[0][3]) / 2, along),
        ):
            times = (middle - first) / float(repeat)
            assert times == pytest.approx(round(times), abs=1e-6)
    assert len(rings(scene)) >= len(pieces)
    for line in rings(scene):
        for x, y in line.points:
            assert -1e-9 <= float(x) <= float(width) + 1e-9
            assert length[1] - 1e-9 <= float(y) <= length[3] + 1e-9


@pytest.mark.parametrize("width", [360, 900])
@pytest.mark.parametrize("motif", [Motif(F(6), F(6)), Motif(F(4), F(3)), Motif(F(20), F(9))])
def test_texts_are_clear_and_many_rows_are_drawn_broken(motif: Motif, width: int) -> None:
    many = fussy((F(37, 8), F(37, 8)), 80, motif, F(42))
    for scene in (
        cutting(seen(), ("water",), bare(F(42)), (many,), width),
        strips(seen(), ("water",), bare(F(42)), (many,), width),
        left_handed(cutting(seen(), ("water",), bare(F(42)), (many,), width)),
    ):
        assert not overlaps(scene, width)
        assert [a for a in flat(scene.items) if isinstance(a, Area) and a.layer == 3]
        assert frame_of(scene, width).height < 1.8 * width


def test_a_length_with_motifs_comes_before_the_strips() -> None:
    """Slack Water's inner border is cut from the cloth of the lanterns in a colourway."""
    design, publication = published("slack-water")[1]
    group = ("glow", "rope", "quay")
    found, problems = requirements(design, publication, [F(42)])
    assert problems == ()
    need = need_for(found, group, F(42))
    scene = cutting(seen(), ("water",), need.plan, need.fussy)
    headings = [i.text for i in flat(scene.items) if isinstance(i, Note) and "wide" in i.text]
    notes = [i.text for i in flat(scene.items) if isinstance(i, Note)]
    assert notes.index('Length of 16 5/8" for 8 F with motifs') < notes.index(headings[0])
    assert not overlaps(scene, 360)
