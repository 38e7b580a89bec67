"""The customer's seam check: strips, rows, facts and the two drawings."""

from __future__ import annotations

from functools import cache
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from examples import EXAMPLES, publish_one
from test_diagrams import items
from test_tips import F, point_unit
from text_boxes import text_boxes

from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.seam_error import seam_error
from pieceproof.diagrams.subject import Subject, subject
from pieceproof.diagrams.tips import MARKS, tips
from pieceproof.drawing.scene import Letter, Scene, TextKind
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.fact_seams import nearest, seam_facts
from pieceproof.lengths import square_root
from pieceproof.model import Measure
from pieceproof.published import MakeKind
from pieceproof.seam_check import SeamCheck, own_seam, seam_check
from pieceproof.tips import TipKind, tips_of

WIDTHS = (360, 900)


@cache
def drawn(example: str) -> Subject:
    return subject(*publish_one(EXAMPLES[example]()))


@cache
def checked(example: str) -> SeamCheck:
    s = drawn(example)
    return seam_check(s.design, s.publication, tips_of(s.design, s.publication, s.drawing))


def test_three_strips_of_one_and_a_half_inch_tell_the_seam() -> None:
    """3 1/2 wide, the middle one 1 (check values 101 and 102: SEAM)."""
    check = checked("runner")
    assert check.strip == F(3, 2)
    assert (check.true.three, check.true.middle) == (F(7, 2), 1)
    assert own_seam(F(3, 2), F(7, 2)) == F(1, 4)
    assert own_seam(F(3, 2), F(13, 4)) == F(5, 16)


@pytest.mark.parametrize("example", sorted(EXAMPLES))
def test_every_row_measures_what_gives_its_seam(example: str) -> None:
    check = checked(example)
    assert [row.error for row in check.rows] == sorted(row.error for row in check.rows)
    for row in check.rows:
        assert own_seam(check.strip, row.three) == row.own
        assert row.middle + 2 * (check.strip - row.own) == row.three


def test_rows_lie_a_ruler_s_mark_apart() -> None:
    """Three strips differ by an eighth of an inch, or by two millimetres."""
    for example, step in (("runner", F(1, 8)), ("place mat", F(1, 5))):
        three = [row.three for row in checked(example).rows]
        assert {one - other for one, other in pairwise(three)} == {step}


def test_metric_strips() -> None:
    """Six seams of 0.75 cm; the errors are 1.5 and 3 mm."""
    check = checked("place mat")
    assert (check.strip, check.true.three, check.true.middle) == (F(9, 2), F(21, 2), 3)
    assert [row.own for row in check.listed] == [F(3, 5), F(3, 4), F(9, 10), F(21, 20)]


def test_what_a_wide_seam_does_to_the_stars() -> None:
    row = checked("runner").listed[2]
    assert [(size.make, size.width) for size in row.sizes] == [
        ("star", F(41, 4)),
        ("top", F(243, 4)),
    ]
    assert [(t.group.fabric, t.clearance) for t in row.tips] == [
        ("ground", F(3, 16)),
        ("wing", F(1, 4)),
    ]
    assert not row.lost
    assert ("quilt centre", "E", F(1, 4)) in {(f.make, f.what, f.excess) for f in row.fits}
    assert row.out_of_line == F(5, 8)


def test_what_a_wide_seam_does_to_the_geese() -> None:
    (lost,) = checked("place mat").listed[2].lost
    assert (lost.group.make, lost.group.fabric) == ("goose unit", "goose")
    assert lost.clearance == F(-3, 20)


def test_where_there_are_no_blocks_the_units_are_measured() -> None:
    assert [size.make for size in checked("quilt").true.sizes] == ["blade", "top"]


def test_facts_of_the_check() -> None:
    design, publication, _ = publish_one(EXAMPLES["runner"]())
    facts = {f.key: f for f in seam_facts(design, publication, checked("runner"))}
    expected = {
        "seam check, cut three strips": '1 1/2"',
        "own seam 1/4, three strips measure": '3 1/2"',
        "own seam 5/16, the middle strip measures": '7/8"',
        "own seam 5/16, block star, unfinished, width": '10 1/4"',
        "own seam 5/16, clearance of lower tip of background, unit point": '3/16"',
        "own seam 5/16, quilt centre, F and E too long by": '1 1/4"',
        "own seam 3/16, quilt centre, E too long by": '-1/4"',
        "own seam 5/16, seams out of line by": '5/8"',
        "block star, step 1, seams within rows": "must be exact",
        "block star, step 1, seams within rows, top differs by": '1 1/4"',
    }
    assert {key: facts[key].said for key in expected} == expected
    assert "own seam 1/4, block star, unfinished, width" not in facts


def test_a_length_off_the_ruler_is_published_to_the_nearest_half_step() -> None:
    assert nearest(Measure.INCH, F(9) - F(3, 4) * square_root(2)) == F(127, 16)
    assert nearest(Measure.CENTIMETRE, F(-3, 20)) == F(-3, 20)


# The drawings

TIPS = [
    (example, make.name)
    for example in EXAMPLES
    for make in drawn(example).publication.makes
    if make.kind in (MakeKind.UNIT, MakeKind.BLOCK)
]


def scene_of(kind: str, example: str, make: str, width: int) -> Scene:
    if kind == "tips":
        return tips(drawn(example), make, width)
    return seam_error(drawn(example), make, checked(example).listed, width)


ALL = [(kind, *shown, width) for kind in ("tips", "error") for shown in TIPS for width in WIDTHS]


@pytest.mark.parametrize(("kind", "example", "make", "width"), ALL)
def test_drawings_are_told_and_keep_their_width(
    kind: str, example: str, make: str, width: int
) -> None:
    scene = scene_of(kind, example, make, width)
    assert make in scene.title
    assert len(scene.desc) > 30
    for look in Look:
        svg = to_svg(scene, look, "d", width, palette(drawn(example).design, "first"))
        assert ElementTree.fromstring(svg).attrib["width"] == str(width)


@pytest.mark.parametrize(("kind", "example", "make", "width"), ALL)
def test_no_two_texts_overlap(kind: str, example: str, make: str, width: int) -> None:
    placed = list(text_boxes(scene_of(kind, example, make, width), width))
    for (text, a), (other, b) in combinations(placed, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{text!r} and {other!r}"


def marks(scene: Scene) -> list[str]:
    return [i.text for i in items(scene, Letter) if i.kind is TextKind.STEP]


def test_every_tip_has_its_mark_and_every_group_its_line() -> None:
    assert marks(tips(drawn("runner"), "point")) == ["+"] * 5
    assert marks(tips(drawn("place mat"), "goose unit")) == ["0"] * 7
    assert len(set(MARKS.values())) == len(TipKind)


def test_a_cut_tip_is_marked_otherwise_and_told() -> None:
    scene = tips(point_subject(), "point")
    assert marks(scene).count(MARKS[TipKind.CUT]) == 2
    assert 'Lower tip of background: cut off by 1/8".' in scene.desc


def point_subject() -> Subject:
    return subject(*point_unit(F(17, 8)))


def test_the_drawing_says_which_seams_cut_tips() -> None:
    scene = seam_error(drawn("place mat"), "goose unit", checked("place mat").listed)
    assert scene.desc.count("no tip is cut off") == 2
    assert scene.desc.count("some tips are cut off") == 2
