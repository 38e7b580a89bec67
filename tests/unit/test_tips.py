"""Clearance of tips: known stars, geese and triangles; what is left out; words and facts."""

from dataclasses import replace

import pytest
from bench_samples import INCH_SAMPLES, star
from examples import EXAMPLES, Published, design_of_corners, publish_one, runner
from quicktions import Fraction

from pieceproof.fact_tips import tip_facts
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import FabricName, Size, TipRoom
from pieceproof.published import Picture
from pieceproof.steps import Corner, Side
from pieceproof.tips import TipKind, Tips, demanded, in_words, picture_tips, tips_of

F = Fraction
QUARTER, HALF = F(1, 4), F(1, 2)


def of_sample(sample: str, make: str) -> dict[tuple[str, Side], set[object]]:
    """Clearances by fabric and side."""
    picture = INCH_SAMPLES[sample]()[1].pictures[make]
    found: dict[tuple[str, Side], set[object]] = {}
    for tip in picture_tips(picture, QUARTER, HALF):
        found.setdefault((tip.fabric, tip.toward), set()).add(tip.clearance)
    return found


def of_design(name: str) -> Tips:
    return tips_of(*publish_one(EXAMPLES[name]()))


def point_unit(leg: Fraction) -> Published:
    """The runner with another leg on the side units of its stars."""
    corner = StitchedCorner(FabricName("wing"), leg)
    unit = StitchedCorners(
        Size(F(9, 2), F(11, 4)),
        FabricName("ground"),
        {Corner.BOTTOM_LEFT: corner, Corner.BOTTOM_RIGHT: corner},
    )
    return publish_one(replace(runner(), units={"point": unit}))


def point_picture(leg: Fraction) -> Picture:
    return point_unit(leg)[2].pictures["point"]


def test_both_kinds_of_tip_of_the_known_star_have_a_quarter_inch() -> None:
    """Centre 5, sides 3 1/4 x 5, corners 3 1/4, 3 in squares: common practice, no source."""
    assert of_sample("star", "star point") == {
        ("points", Side.TOP): {QUARTER},
        ("ground", Side.BOTTOM): {QUARTER},
    }
    assert star()[0].seam == QUARTER


@pytest.mark.parametrize(
    ("leg", "clearance"),
    [(F(9, 4), F(0)), (F(17, 8), F(-1, 8)), (F(19, 8), F(1, 8)), (F(2), F(-1, 4))],
)
def test_other_squares_bring_the_meeting_of_the_points_nearer_or_cut_it_off(
    leg: Fraction, clearance: Fraction
) -> None:
    tips = picture_tips(point_picture(leg), QUARTER, HALF)
    assert [t.clearance for t in tips if t.toward is Side.BOTTOM] == [clearance]


def test_points_far_apart_are_blunt_by_design() -> None:
    """A square with small corners has no tips: its seams do not meet on the cloth."""
    _, publication, drawing = publish_one(design_of_corners(F(6), F(2)))
    assert picture_tips(drawing.pictures["cut square"], publication.seam, HALF) == ()


@pytest.mark.parametrize(
    ("sample", "make", "tips"),
    [
        ("flying geese", "flying geese", 5),
        ("half-square triangles", "triangle square", 4),
        ("hourglasses", "hourglass", 8),
    ],
)
def test_geese_and_triangles_end_on_the_seam_lines(sample: str, make: str, tips: int) -> None:
    found = of_sample(sample, make)
    assert {c for clearances in found.values() for c in clearances} == {0}
    picture = INCH_SAMPLES[sample]()[1].pictures[make]
    assert len(picture_tips(picture, QUARTER, HALF)) == tips


def test_rectangles_have_no_tips() -> None:
    assert of_sample("nine patch", "nine patch") == {}
    assert of_sample("sashed top", "top") == {}


def test_a_size_says_up_to_which_seam_its_tips_stay_whole() -> None:
    assert of_design("runner").whole_up_to == HALF
    assert of_design("quilt").whole_up_to is None


def test_a_block_has_the_tips_of_its_outer_cells() -> None:
    (group,) = of_design("runner").of("star")
    assert (group.fabric, group.clearance, group.count) == ("wing", QUARTER, 8)
    assert set(group.sides) == set(Side)
    assert {t.at for t in group.tips if t.toward is Side.TOP} == {
        (F(11, 4), QUARTER),
        (F(29, 4), QUARTER),
    }


def test_what_lies_behind_sashing_or_a_border_is_out_of_reach() -> None:
    tips = of_design("runner")
    assert not tips.of("quilt centre")
    assert not tips.of("top")


def test_a_demand_beyond_the_usual_reach_is_looked_for_so_far() -> None:
    far = point_picture(F(5, 4))
    assert not [t for t in picture_tips(far, QUARTER, HALF) if t.toward is Side.TOP]
    assert {t.clearance for t in picture_tips(far, QUARTER, F(2)) if t.toward is Side.TOP} == {
        F(3, 2)
    }


@pytest.mark.parametrize(("leg", "faults"), [(F(9, 4), 0), (F(17, 8), 1), (F(19, 8), 0)])
def test_a_demand_of_nothing_lets_no_tip_be_cut_off(leg: Fraction, faults: int) -> None:
    """Exact, cut by 1/8 and floating by 1/8, as the legs of the points meet or do not."""
    design, publication, drawing = point_unit(leg)
    design = replace(design, tips=TipRoom(F(0)))
    problems = demanded(design, tips_of(design, publication, drawing))
    assert [problem.code for problem in problems] == ["tip-too-near"] * faults


def test_tips_in_words() -> None:
    named = {name: name for name in ("ground", "wing", "goose", "sky")}
    words = [in_words(group, named) for group in of_design("runner").groups]
    assert words == ["lower tip of ground", "upper tips of wing", "outer tips of wing"]
    geese = of_design("place mat").of("goose unit")
    assert [in_words(group, named) for group in geese] == [
        "upper, right and left tips of goose",
        "lower tips of sky",
    ]
    assert {group.state for group in geese} == {TipKind.EXACT}


def test_facts_of_tips() -> None:
    design, publication, drawing = publish_one(runner())
    facts = tip_facts(design, publication, tips_of(design, publication, drawing))
    assert [(f.key, f.exact, f.said) for f in facts] == [
        ("unit point, clearance of lower tip of background", "1/4", '1/4"'),
        ("unit point, clearance of upper tips of dark point", "1/4", '1/4"'),
        ("block star, clearance of outer tips of dark point", "1/4", '1/4"'),
        ("tips of units, floating", "3", "3"),
        ("tips of units, exact", "0", "0"),
        ("tips of units, cut off", "0", "0"),
        ("floating tips stay whole up to a seam of", "1/2", '1/2"'),
    ]
