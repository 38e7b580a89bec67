"""The bench sews known units as the trade knows them, and says plainly what does not fit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import pytest
from bench_samples import (
    ADDED,
    INCH_SAMPLES,
    QUARTER,
    Sample,
    flip_corner,
    flying_geese,
    half_square_triangles,
    hourglasses,
    nine_patch,
    sashed_top,
    star,
    stitched_corners,
)
from quicktions import Fraction

from pieceproof.bench import prove, show_disagreement
from pieceproof.bench.sewing import Sewn, Shop, sew
from pieceproof.bench.table import Flat, cloth
from pieceproof.published import Drawing, Patch, Picture
from pieceproof.steps import (
    Assemble,
    Corner,
    CutApart,
    Diagonal,
    Edge,
    Join,
    Layer,
    Open,
    Placed,
    Sew,
    Side,
    Slope,
    Step,
    Take,
    Trim,
    Turn,
    Yield,
)

F = Fraction
RED, BLUE, TALL = cloth("red", "R", F(3), F(3)), cloth("blue", "B", F(3), F(3)), F(5)
CLOTH = {"R": RED, "B": BLUE, "T": cloth("tan", "T", F(3), TALL)}


@pytest.mark.parametrize("name", INCH_SAMPLES)
def test_what_is_right_passes(name: str) -> None:
    assert prove(*INCH_SAMPLES[name]()) == ()


def test_metric_units_pass() -> None:
    for sample in (
        nine_patch(F(6), F(3, 4)),
        half_square_triangles(F(15, 2), F(3, 4)),
        hourglasses(F(10), F(7, 10)),
        flying_geese(F(6), F(3, 5)),
    ):
        assert prove(*sample) == ()


@pytest.mark.parametrize(
    ("maker", "finished", "cut"),
    [
        # Check values of the trade: half-square triangle 3 from 3 7/8 (L1, NHQ, APQ),
        # quarter-square triangle 3 from 4 1/4 (NHQ).
        (half_square_triangles, F(3), F(31, 8)),
        (hourglasses, F(3), F(17, 4)),
    ],
)
def test_trade_sizes_come_off_the_bench(maker: object, finished: Fraction, cut: Fraction) -> None:
    publication, drawing = maker(finished)  # type: ignore[operator]
    assert publication.pieces[0].short == cut
    assert prove(publication, drawing) == ()


def test_star_tips_stop_a_quarter_inch_short_of_the_seam() -> None:
    """Sides 3 1/4 x 5 with 3 in squares (common practice): 1/4 in clear, and exactly that."""
    publication, drawing = star()
    assert prove(publication, drawing) == ()
    picture = drawing.pictures["star point"]
    tip = max(y for _, y in picture.patches[0].outline)
    assert picture.height - tip == F(1, 4)
    touching = tuple(
        replace(p, outline=tuple((x, picture.height if y == tip else y) for x, y in p.outline))
        for p in picture.patches
    )
    other = Drawing({**drawing.pictures, "star point": replace(picture, patches=touching)})
    assert "star point" in {d.where for d in prove(publication, other)}


def test_an_upper_layer_is_turned_over_as_a_page() -> None:
    """Red left and blue right lie red right once turned over; folded up, red stays right."""
    steps = (
        *red_left_blue_right(),
        Take("base", "W"),
        Layer("base", "two", Corner.TOP_LEFT),
        Sew("base", Edge(Side.TOP, QUARTER)),
        Open("base", Side.TOP, ADDED),
        Yield(("base",)),
    )
    shop = {**CLOTH, "W": cloth("white", "W", F(11, 2), F(4))}
    (thing,) = sewn(steps, shop).finished
    assert fabric_at(thing, F(1), F(1)) == "blue"
    assert fabric_at(thing, F(5), F(1)) == "red"
    assert fabric_at(thing, F(1), F(4)) == "white"


def test_an_upper_layer_folded_out_sideways_reads_as_before() -> None:
    """Turned over as a page and folded back as a page: red is left again."""
    steps = (
        *red_left_blue_right(),
        Take("base", "B"),
        Layer("base", "two", Corner.TOP_RIGHT),
        Sew("base", Edge(Side.RIGHT, QUARTER)),
        Open("base", Side.RIGHT, ADDED),
        Yield(("base",)),
    )
    (thing,) = sewn(steps, CLOTH).finished
    seam_x = F(11, 4)
    assert fabric_at(thing, seam_x + 1, F(1)) == "red"
    assert fabric_at(thing, seam_x + 5, F(1)) == "blue"
    assert thing.width == F(3) + F(11, 2) - 2 * QUARTER


def test_joining_is_layering_sewing_and_opening() -> None:
    by_hand = (
        Take("a", "R"),
        Take("b", "B"),
        Layer("a", "b", Corner.TOP_RIGHT),
        Sew("a", Edge(Side.RIGHT, QUARTER)),
        Open("a", Side.RIGHT, ADDED),
        Yield(("a",)),
    )
    short = (
        Take("a", "R"),
        Take("b", "B"),
        Join("a", "b", Side.RIGHT, QUARTER, ADDED),
        Yield(("a",)),
    )
    assert as_set(sewn(by_hand, CLOTH)) == as_set(sewn(short, CLOTH))


@pytest.mark.parametrize("side", Side)
def test_an_added_strip_lies_on_its_side(side: Side) -> None:
    steps = (
        Take("a", "R"),
        Take("b", "B"),
        Join("a", "b", side, QUARTER, ADDED),
        Yield(("a",)),
    )
    (thing,) = sewn(steps, CLOTH).finished
    near = {
        Side.LEFT: (F(1), F(1)),
        Side.TOP: (F(1), F(1)),
        Side.RIGHT: (thing.width - 1, F(1)),
        Side.BOTTOM: (F(1), thing.height - 1),
    }
    assert fabric_at(thing, *near[side]) == "blue"


def test_folding_out_four_corners_leaves_a_diamond() -> None:
    """Four corners of half the square's finished side meet tip to tip (square in a square)."""
    corners = tuple(s for c in Corner for s in flip_corner("B", c, QUARTER))
    shop = {"A": cloth("red", "A", F(9, 2), F(9, 2)), "B": cloth("blue", "B", F(5, 2), F(5, 2))}
    (thing,) = sewn((Take("unit", "A"), *corners, Yield(("unit",))), shop).finished
    (red,) = [f for f in thing.faces if f.fabric == "red"]
    q, m = QUARTER, F(9, 4)
    assert set(red.outline) == {(m, q), (4 + q, m), (m, 4 + q), (q, m)}


SNAGS: Sequence[tuple[str, tuple[Step, ...], int, str, str, str]] = (
    ("no such pile", (Take("a", "X"),), 1, "“X” to be cut", "there is none yet", ""),
    ("a name twice", (Take("a", "R"), Take("a", "B")), 2, "no other “a”", "two things", ""),
    ("nothing there", (Turn("a", 1),), 1, "“a” on the table", "it is not there", ""),
    ("left lying", (Take("a", "R"),), 1, "an empty table", "“a” left lying", ""),
    (
        "not opened",
        (Take("a", "R"), Take("b", "B"), Layer("a", "b", Corner.TOP_LEFT), Yield(("a",))),
        4,
        "“a” to lie flat",
        "two layers",
        "",
    ),
    ("one layer sewn", (Take("a", "R"), Sew("a", Edge(Side.TOP, QUARTER))), 2, "two", "single", ""),
    (
        "edges differ",
        (Take("a", "R"), Take("b", "T"), Join("a", "b", Side.LEFT, QUARTER, ADDED)),
        3,
        "edges of one length: 3",
        "5",
        "2 too long",
    ),
    (
        "another seam",
        (Take("a", "R"), Take("b", "B"), Join("a", "b", Side.LEFT, F(3, 8), ADDED)),
        3,
        "a seam allowance of 1/4",
        "a seam allowance of 3/8",
        "",
    ),
    (
        "trim too small",
        (Take("a", "R"), Trim("a", F(3), F(5, 2), F(0), F(1, 4), F(1, 8), F(1, 4))),
        2,
        "3 1/8 x 3 before trimming",
        "3 x 3",
        "1/8 too narrow",
    ),
    (
        "trim less than nothing",
        (Take("a", "R"), Trim("a", F(3), F(3), F(1, 8), F(0), F(-1, 8), F(0))),
        2,
        "something to trim on every side",
        "less than nothing",
        "",
    ),
    (
        "cut misses",
        (Take("a", "R"), CutApart("a", Edge(Side.TOP, F(4)), "x", "y")),
        2,
        "two parts",
        "misses the cloth",
        "",
    ),
    (
        "seam misses",
        (
            Take("a", "R"),
            Take("b", "B"),
            Layer("a", "b", Corner.TOP_LEFT),
            Sew("a", Edge(Side.TOP, F(3))),
        ),
        4,
        "a seam through both layers",
        "misses one",
        "",
    ),
    (
        "nothing holds it",
        (
            Take("a", "R"),
            Take("b", "B"),
            Layer("a", "b", Corner.TOP_LEFT),
            Sew("a", Diagonal(Slope.RISING, F(1, 4))),
            CutApart("a", Diagonal(Slope.RISING, F(0)), "x", "y"),
        ),
        5,
        "a seam that holds “y” together",
        "two loose layers",
        "",
    ),
    (
        "two seams in one fold",
        (
            Take("a", "R"),
            Take("b", "B"),
            Layer("a", "b", Corner.TOP_LEFT),
            Sew("a", Diagonal(Slope.RISING, F(1, 4))),
            Sew("a", Diagonal(Slope.RISING, F(-1, 4))),
            Open("a", Corner.TOP_LEFT, ADDED),
        ),
        6,
        "one seam to fold “a” over",
        "2 seams",
        "",
    ),
    (
        "folded across",
        (
            Take("a", "R"),
            Take("b", "B"),
            Layer("a", "b", Corner.TOP_LEFT),
            Sew("a", Diagonal(Slope.RISING, F(0))),
            Open("a", Corner.TOP_RIGHT, ADDED),
        ),
        5,
        "a fold square to the seam",
        "toward the top right",
        "",
    ),
    (
        "wide allowance",
        (
            Take("a", "R"),
            Take("b", "B"),
            Layer("a", "b", Corner.TOP_LEFT),
            Sew("a", Edge(Side.TOP, F(3, 8))),
            Open("a", Side.TOP, ADDED),
        ),
        5,
        "a seam allowance of 1/4 on the lower layer",
        "3/8",
        "1/8 too wide",
    ),
    (
        "seam ends inside",
        (
            Take("a", "T"),
            Take("b", "B"),
            Layer("a", "b", Corner.TOP_LEFT),
            Sew("a", Edge(Side.LEFT, QUARTER)),
            Open("a", Side.LEFT, ADDED),
        ),
        5,
        "a seam from edge to edge",
        "ends inside the lower layer",
        "",
    ),
    (
        "rows differ",
        (
            Assemble(
                "a",
                ((Placed("R", 0), Placed("B", 0)), (Placed("R", 0),)),
                QUARTER,
                ("right", "left"),
                "down",
            ),
        ),
        1,
        "row 2 as long as the row above: 5 1/2",
        "3",
        "2 1/2 too short",
    ),
    (
        "cells differ",
        (Assemble("a", ((Placed("R", 0), Placed("T", 0)),), QUARTER, ("right",), "down"),),
        1,
        "“T” as tall as the other cells of row 1: 3",
        "5",
        "2 too long",
    ),
    (
        "a word of its own",
        (Assemble("a", ((Placed("R", 0), Placed("R", 0)),), QUARTER, ("sideways",), "down"),),
        1,
        "a word for where seams are pressed",
        "“sideways”",
        "",
    ),
    (
        "more ways than seams",
        (Assemble("a", ((Placed("R", 0), Placed("R", 0)),), QUARTER, ("left, right",), "down"),),
        1,
        "1 seam to press",
        "2 directions",
        "",
    ),
    (
        "spun, but not two by two",
        (Assemble("a", ((Placed("R", 0), Placed("R", 0)),), QUARTER, ("left",), "spun"),),
        1,
        "two rows of two pressed opposite ways, to be spun",
        "other rows",
        "",
    ),
)


@pytest.mark.parametrize(
    ("steps", "number", "expected", "found", "by"),
    [s[1:] for s in SNAGS],
    ids=[s[0] for s in SNAGS],
)
def test_what_cannot_be_sewn_is_said(
    steps: tuple[Step, ...], number: int, expected: str, found: str, by: str
) -> None:
    result = sewn(steps, CLOTH)
    assert result.snag is not None
    assert (result.step, result.snag.by) == (number, by)
    assert expected in result.snag.expected
    assert found in result.snag.found


def test_a_mistake_in_a_block_is_said_once() -> None:
    """Later makes are sewn with a block as drawn, so that nothing else is blamed."""
    publication, drawing = sashed_top()
    first, *others = publication.pieces
    pieces = (replace(first, fabric="odd"), *others)
    found = prove(replace(publication, pieces=pieces), drawing)
    assert {(d.where, d.letter, d.by) for d in found[:3]} == {
        ("block", "A", "the same place in another fabric")
    }
    assert [(d.where, d.found) for d in found[3:]] == [("block", "5 of 9 differ")]


def test_two_mistakes_are_both_said() -> None:
    publication, drawing = sashed_top()
    pieces = list(publication.pieces)
    pieces[0] = replace(pieces[0], fabric="odd")
    pieces[4] = replace(pieces[4], short=F(29, 8), needed_short=F(29, 8))
    found = prove(replace(publication, pieces=tuple(pieces)), drawing)
    assert {d.where for d in found} == {"block", "top"}


def test_a_wrong_piece_is_named_with_how_much() -> None:
    publication, drawing = nine_patch()
    wrong = replace(publication.pieces[1], long=F(29, 8), needed_long=F(29, 8))
    found = prove(replace(publication, pieces=(publication.pieces[0], wrong)), drawing)
    assert [show_disagreement(d) for d in found] == [
        "nine patch, step 1 (join 3 rows to block): expected “B” as tall as the other cells of "
        "row 1: 3 1/2, found 3 5/8 (1/8 too long)."
    ]


def test_a_needed_size_that_is_not_needed_is_said() -> None:
    publication, drawing = half_square_triangles()
    wrong = tuple(
        replace(p, needed_short=F(15, 4), needed_long=F(15, 4)) for p in publication.pieces
    )
    found = prove(replace(publication, pieces=wrong), drawing)
    (one,) = found
    assert one.where == "triangle square"
    assert "when its pieces are cut to the exact needed size" in one.expected
    assert one.letter == "A, B"


def said(sample: Sample, **changes: object) -> list[tuple[str, str, str]]:
    publication, drawing = sample
    found = prove(replace(publication, **changes), drawing)  # type: ignore[arg-type]
    return [(d.where, d.letter, d.found) for d in found]


def test_counts_are_said() -> None:
    sample = stitched_corners()
    publication = sample[0]
    piece, other = publication.pieces
    assert said(sample, pieces=(replace(piece, count=3), other)) == [("cutting list", "A", "3 cut")]
    unit, top = publication.makes
    assert said(sample, makes=(replace(unit, wanted=1), top)) == [
        ("corner unit", "", "1 wanted"),
        ("corner unit", "", "2 rounds, 2 made"),
    ]


def test_more_spares_than_a_round_are_said() -> None:
    sample = half_square_triangles()
    publication = sample[0]
    unit, top = publication.makes
    pieces = tuple(replace(p, count=2) for p in publication.pieces)
    found = said(sample, pieces=pieces, makes=(replace(unit, rounds=2), top))
    assert found == [("triangle square", "", "2 rounds, 4 made")]


def test_an_announced_spare_is_no_mistake() -> None:
    publication, drawing = half_square_triangles()
    unit, top = publication.makes
    single = Assemble("top", ((Placed(unit.name, 0),),), QUARTER, ("left",), "down")
    top = replace(top, steps=(single, Yield(("top",))), width=unit.width)
    picture = replace(drawing.pictures[unit.name], name="top")
    makes = (replace(unit, wanted=1), top)
    quilt = replace(publication, makes=makes, width=F(3))
    assert makes[0].spare == 1
    assert prove(quilt, Drawing({**drawing.pictures, "top": picture})) == ()


def test_lists_are_said() -> None:
    sample = nine_patch()
    first, second = sample[0].pieces
    assert said(sample, pieces=(replace(first, uses=()), second)) == [
        ("cutting list", "A", "listed for nothing")
    ]
    assert ("cutting list", "A", "more than one") in said(
        sample, pieces=(first, replace(second, letter="A"))
    )
    assert said(sample, measure="ell") == [("cutting list", "", "ell")]
    assert ("cutting list", "", "0") in said(sample, step=F(0))


def test_several_tops_are_wanted() -> None:
    publication, drawing = nine_patch()
    (top,) = publication.makes
    pieces = tuple(replace(p, count=2 * p.count) for p in publication.pieces)
    pair = replace(publication, pieces=pieces, makes=(replace(top, wanted=2, rounds=2),))
    assert prove(replace(pair, quantity=2), drawing) == ()
    assert [d.by for d in prove(pair, drawing)] == ["1 too many"]


def test_finishing_is_said() -> None:
    sample = sashed_top()
    publication = sample[0]
    binding, backing = publication.binding, publication.backing
    assert binding is not None
    assert backing is not None
    assert said(sample, binding=replace(binding, length=binding.length - 1)) == [
        ("binding", "", "89")
    ]
    assert said(sample, binding=replace(binding, cut_width=F(1))) == [("binding", "", "1")]
    assert said(sample, backing=replace(backing, width=F(27))) == [("backing", "", "27 x 28")]
    assert ("finished size", "", "20 1/8 x 20") in said(sample, width=F(161, 8))


def test_drawings_and_makes_go_together() -> None:
    publication, drawing = nine_patch()
    extra = Picture("ghost", F(1), F(1), (Patch("dark", ()),))
    found = prove(publication, Drawing({**drawing.pictures, "ghost": extra}))
    assert [d.where for d in found] == ["ghost"]
    assert [d.expected for d in prove(publication, Drawing({}))] == ["a drawing of it"]
    empty = replace(publication, makes=(), pieces=())
    assert [d.where for d in prove(empty, Drawing({}))] == ["makes"]


def test_an_offset_from_an_unmeasurable_diagonal_is_said() -> None:
    root_sided = cloth("red", "R", F(3), half_square_triangles()[0].pieces[0].needed_long)
    cut = CutApart("a", Diagonal(Slope.RISING, F(1, 4)), "x", "y")
    result = sewn((Take("a", "R"), cut), {"R": root_sided})
    assert result.snag is not None
    assert "measured exactly" in result.snag.expected


def red_left_blue_right() -> tuple[Step, ...]:
    return (
        Take("two", "R"),
        Take("b", "B"),
        Join("two", "b", Side.RIGHT, QUARTER, ADDED),
    )


def sewn(steps: Sequence[Step], shop: Mapping[str, Flat]) -> Sewn:
    return sew(steps, Shop(shop, QUARTER))


def as_set(result: Sewn) -> set[tuple[str, frozenset[object]]]:
    (thing,) = result.finished
    return {(f.fabric, frozenset(f.outline)) for f in thing.faces}


def fabric_at(thing: Flat, x: Fraction, y: Fraction) -> str:
    """The fabric of the upright rectangle around a point."""
    for face in thing.faces:
        xs, ys = [p[0] for p in face.outline], [p[1] for p in face.outline]
        if min(xs) < x < max(xs) and min(ys) < y < max(ys):
            return face.fabric
    raise AssertionError("no cloth there")
