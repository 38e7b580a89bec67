"""Seams that meet: what is pressed which way, and what the bench finds.

What should nest is common practice of the trade: an odd grid of blocks needs two sets, seams of a
sashed setting go toward the sashing, the middle of a pinwheel is spun or pressed open.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from nesting_samples import CHEVRONS, NINE_PATCH, PINWHEEL, lying, published, setting
from quicktions import Fraction

from pieceproof.bench.nesting import Lying, meetings
from pieceproof.compile import Pattern, compile_pattern
from pieceproof.methods.method import SET_B
from pieceproof.pressing_words import press_words
from pieceproof.published import Publication
from pieceproof.seam_ends import plain
from pieceproof.seams_met import further_right
from pieceproof.steps import Assemble, Open, mirror_step, pressed_other_way, seam_ways

F = Fraction
SHOP = Path(__file__).parents[2] / "patterns"


@cache
def shop_pattern(slug: str) -> Pattern:
    return compile_pattern(slug, {"pattern.yaml": (SHOP / slug / "pattern.yaml").read_bytes()})


def wanted(publication: Publication) -> dict[str, int]:
    return {make.name: make.wanted for make in publication.makes}


def assembly(publication: Publication, name: str) -> Assemble:
    make = next(make for make in publication.makes if make.name == name)
    return next(step for step in make.steps if isinstance(step, Assemble))


def test_a_nine_patch_nests_at_its_four_joins() -> None:
    found = lying(published(NINE_PATCH, setting("nine")).publication)
    assert found == {Lying.NESTED: 4}


def test_an_odd_checkerboard_is_made_in_two_sets() -> None:
    """3 x 3 blocks: 9 x 4 joins in blocks, 12 sides of two joins, 4 corners."""
    size = published(NINE_PATCH, setting("nine", 3, 3))
    assert wanted(size.publication) == {"nine": 5, f"nine{SET_B}": 4, "top": 1}
    assert lying(size.publication) == {Lying.NESTED: 9 * 4 + 12 * 2 + 4}
    letters = {p.letter: p.count for p in size.publication.pieces}
    assert letters == {"A": 36, "B": 45}, "both sets take the same pieces"
    steps = {i.make.name: i.steps for i in size.instructions}
    assert steps[f"nine{SET_B}"][0].startswith("Set B")


def test_rows_of_blocks_on_point_nest() -> None:
    size = published(NINE_PATCH, setting("nine", 3, 3, "on point"))
    assert set(lying(size.publication)) == {Lying.NESTED}
    assert lying(size.publication, ("top",))[Lying.NESTED] > 20


def test_rows_of_blocks_and_sashes_on_point_nest() -> None:
    """Rows of sashes start with a square as wide as a sash, rows of blocks with the sash."""
    sashing = ", sashing: {fabric: heart, width: 1, cornerstones: ground}}\n"
    rows = setting("nine", 3, 3, "on point").replace("}\n", sashing)
    size = published(NINE_PATCH, rows)
    assert set(lying(size.publication)) == {Lying.NESTED}
    assert lying(size.publication, ("top",))[Lying.NESTED] > 10


@pytest.mark.parametrize(("seams", "far"), [(0, 0), (1, 1), (2, 7), (-1, -3), (-2, -4)])
def test_a_row_on_point_starts_where_a_seam_of_the_row_above_lies(seams: int, far: int) -> None:
    """Widths 1, 6, 1 above and 3, 1, 3 below, added up by hand."""
    above, below = ([plain(F(width), F(1)) for width in row] for row in ((1, 6, 1), (3, 1, 3)))
    assert further_right(seams, above, below) == far


def test_a_pinwheel_is_spun() -> None:
    publication = published(PINWHEEL, setting("mill", 3, 3)).publication
    assert assembly(publication, "mill").between == "spun"
    assert set(lying(publication)) == {Lying.NESTED}
    assert assembly(publication, "top").between == "open", "eight seams meet at the blocks' corners"


def test_a_pinwheel_pressed_one_way_clashes_with_its_neighbour() -> None:
    settled = "pressing: {mill: {between: down}}\n"
    publication = published(PINWHEEL, setting("mill", 3, 1), settled).publication
    found = [m for m in meetings(publication) if m.lying is Lying.CLASHING]
    assert [(m.make, m.where, m.at) for m in found] == [
        ("top", "row 1, patches 1 and 2", 3),
        ("top", "row 1, patches 2 and 3", 3),
    ]


def test_triangles_that_mirror_each_other_are_made_in_two_sets() -> None:
    publication = published(CHEVRONS, setting("zigzag")).publication
    assert wanted(publication)["blade"] == wanted(publication)[f"blade{SET_B}"] == 2
    assert set(lying(publication)) == {Lying.NESTED}


def test_the_writer_settles_a_seam() -> None:
    settled = "pressing: {nine: {row 1: open, row 2 seam 1: right, between 2: up}}\n"
    step = assembly(published(NINE_PATCH, setting("nine"), settled).publication, "nine")
    assert step.row_press[0] == "open"
    assert seam_ways(step.row_press[1], 2)[0] == 1
    assert seam_ways(step.row_press[2], 2)[0] == -1, "it nests with what was settled"
    assert seam_ways(step.between, 2)[1] == -1


def test_the_writer_settles_a_unit() -> None:
    settled = "pressing: {blade: {seam: to the light}}\n"
    usual, other = (
        published(PINWHEEL, setting("mill"), text).publication for text in ("", settled)
    )
    assert [s.press for s in usual.makes[0].steps if isinstance(s, Open)] != [
        s.press for s in other.makes[0].steps if isinstance(s, Open)
    ]


@pytest.mark.parametrize(
    "slug", ["heron-landing", "oxbow", "pilot-star", "riding-lights", "weir-pool"]
)
def test_every_seam_of_these_shop_patterns_nests(slug: str) -> None:
    for size in shop_pattern(slug).sizes:
        assert {m.lying for m in size.meetings} == {Lying.NESTED}


def test_how_units_of_two_kinds_meet_is_the_makers_choice_and_the_steps_say_why() -> None:
    """Hourglasses come two from one pair of layers; what one kind does at a seam, one does not."""
    size = shop_pattern("slack-water").sizes[0]
    either = [m for m in size.meetings if m.lying is Lying.EITHER]
    assert {(m.make, *m.kinds) for m in either} == {("mooring", "knot"), ("skein", "eddy")}
    assert not any(m.kinds for m in size.meetings if m.lying is not Lying.EITHER)
    said = " ".join(next(i.steps for i in size.instructions if i.make.name == "mooring"))
    assert "The knot units come in two kinds, cut apart from the same layers" in said
    assert said.count("try one of each in its place") == 1


def test_what_does_not_nest_is_listed_by_place() -> None:
    """Log cabins are pressed away from their centres, whichever way they lie beside each other."""
    size = next(s for s in shop_pattern("ferry-house").sizes if s.design.size == "nook")
    facts = {fact.key: fact.exact for fact in size.facts}
    clashing = [m for m in size.meetings if m.lying is Lying.CLASHING]
    assert facts["seams that meet, clashing"] == str(sum(m.times for m in clashing))
    told = facts["block quarter, row 1, patches 1 and 2, clashing"]
    assert told == "at 1 1/2, 9 along the seam"


def test_the_bench_notices_every_seam_pressed_the_other_way() -> None:
    """Of a pattern in which all seams nest, every row and unit that is turned round clashes."""
    publication = published(NINE_PATCH, setting("nine", 2, 1)).publication
    assert set(lying(publication)) == {Lying.NESTED}
    tried = 0
    for number, make in enumerate(publication.makes):
        for index, step in enumerate(make.steps):
            if isinstance(step, Assemble):
                for other in _turned_round(step):
                    steps = (*make.steps[:index], other, *make.steps[index + 1 :])
                    makes = list(publication.makes)
                    makes[number] = replace(make, steps=steps)
                    changed = replace(publication, makes=tuple(makes))
                    assert lying(changed)[Lying.CLASHING], other
                    tried += 1
    assert tried == 2 * (3 + 1)


def _turned_round(step: Assemble) -> list[Assemble]:
    """Each row of three, and the seams between rows, the other way."""
    back = {"left": "right", "right": "left", "up": "down", "down": "up"}
    rows = [
        replace(
            step,
            row_press=tuple(back[p] if n == row else p for n, p in enumerate(step.row_press)),
        )
        for row in range(len(step.rows))
        if len(step.rows) > 1
    ]
    between = [replace(step, between=back[step.between])] if len(step.rows) > 1 else []
    return rows + between


def test_the_words_of_a_row() -> None:
    assert seam_ways("right", 3) == (1, 1, 1)
    assert seam_ways("outward", 4) == (-1, -1, 1, 1)
    assert seam_ways("inward", 2) == (1, -1)
    assert seam_ways("left, open, right", 3) == (-1, 0, 1)


def test_steps_that_are_mirrored_or_turned_round() -> None:
    publication = published(NINE_PATCH, setting("nine")).publication
    step = replace(assembly(publication, "nine"), row_press=("left, open", "right", "inward"))
    mirrored = mirror_step(step)
    assert isinstance(mirrored, Assemble)
    assert mirrored.row_press == ("open, right", "left", "inward")
    assert pressed_other_way(pressed_other_way(step)) == step


def test_steps_say_where_seams_go() -> None:
    size = published(NINE_PATCH, setting("nine"))
    words = next(i.steps for i in size.instructions if i.make.name == "nine")
    assert words[1] == (
        "Sew each row together from left to right. Press the seams of rows 1 and 3 to the right "
        "and those of row 2 to the left. Seams that meet lie opposite ways and lock together."
    )


def test_seams_between_rows_are_told_by_the_row_above() -> None:
    """Not as pairs with a stroke, which many letters draw as fractions."""
    step = assembly(published(NINE_PATCH, setting("nine")).publication, "nine")
    words = press_words(replace(step, rows=(*step.rows, *step.rows[:1]), between="down, up, down",
                                row_press=(*step.row_press, "open")), (), ())  # fmt: skip
    assert words.between == "Press the seams below rows 1 and 3 down and those below row 2 up."
