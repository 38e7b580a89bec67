"""Settings in words: which end gets which triangle, what goes around what, in sewing order."""

from settings_samples import GROUND, HEART, STONE, WATER, F, blade, build, cells, design, plain

from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.subject import subject
from pieceproof.model import (
    Cell,
    CopingRound,
    Medallion,
    OnPoint,
    PiecedRound,
    SashingOnPoint,
    Setting,
    Size,
)


def test_diagonal_rows_say_which_end_gets_which_triangle() -> None:
    made = build(design(OnPoint(cells("blade"), HEART, None, 3, 4), {"blade": blade(F(6))}))
    words = made.words()
    assert "6 diagonal rows, each from the lower left to the upper right" in words
    assert "Rows 1, 2, 5 and 6: a side triangle to both ends." in words
    assert "Row 3: a side triangle to the lower left end, a corner triangle to the upper" in words
    assert "Row 4: a corner triangle to the lower left end, a side triangle to the upper" in words
    assert 'Trim to 26" x 34 1/2", unfinished' in words


def test_one_block_on_point_has_corners_only() -> None:
    made = build(design(OnPoint(cells("blade"), HEART), {"blade": blade(F(6))}))
    assert "Row 1: a corner triangle to both ends." in made.words()
    assert "side triangle" not in made.words()


def test_rows_of_sashes_on_point_are_told() -> None:
    sashing = SashingOnPoint(WATER, F(1), STONE)
    setting = OnPoint(cells("blade"), HEART, across=2, down=2, sashing=sashing)
    words = build(design(setting, {"blade": blade(F(6))})).words()
    assert "7 diagonal rows" in words
    assert "is one of sashes, **E**, with cornerstones, **G**, between them: it begins" in words
    assert "Row 4: a corner triangle to both ends." in words
    assert "Rows 2 and 6: a side triangle to both ends." in words


def test_one_sashed_block_has_no_cornerstones_inside() -> None:
    setting = OnPoint(cells("blade"), HEART, sashing=SashingOnPoint(WATER, F(1), STONE))
    words = build(design(setting, {"blade": blade(F(6))})).words()
    assert "one of sashes, **" in words
    assert "cornerstones, **" not in words


def test_rounds_are_sewn_from_the_inside_out() -> None:
    rounds = (
        CopingRound(GROUND, Size(F(6), F(6))),
        PiecedRound(Cell("bar"), Cell("water")),
    )
    units = {"blade": blade(F(4)), "bar": plain(F(3), F(1))}
    made = build(design(Medallion(Cell("blade"), rounds), units))
    names = [make.name for make in made.publication.makes]
    assert names == ["blade", "round 1", "round 2 strip", "top"]
    assert "Lay the strips around the blade" in made.words()
    assert "Sew one round 2 strip to the left side and one to the right side." in made.words()
    assert "to each end of two round 2 strips, turned as in the picture" in made.words()
    assert WATER in {piece.fabric for piece in made.publication.pieces}


def test_plain_blocks_alone_in_a_row_are_as_large_as_the_others() -> None:
    made = build(design(Setting(cells("blade", "ground")), {"blade": blade(F(6))}))
    assert made.publication.height == 12


def test_settings_can_be_drawn() -> None:
    made = build(design(OnPoint(cells("blade"), HEART, None, 2, 2), {"blade": blade(F(6))}))
    scenes = plates(subject(made.design, made.publication, made.drawing))
    assert "making side triangle" in scenes
    assert scenes["assembly top"].title == "top, sewn in diagonal rows"
