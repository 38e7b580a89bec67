"""Sewing with seams too wide or scant: sizes, tips, edges that do not fit, and the ranking."""

from __future__ import annotations

from dataclasses import replace

import pytest
import triangle_units
from bench_samples import (
    INCH_SAMPLES,
    flying_geese,
    half_square_triangles,
    nine_patch,
    piece,
    publication,
    sashed_top,
    star,
)
from examples import EXAMPLES, publish_one, runner
from judge import finished_makes, shows
from quicktions import Fraction
from test_known_strip_methods import UNITS, in_inches
from whole_path import build

from pieceproof.bench.error import Outcome, outcomes, yardstick
from pieceproof.bench.often import sewn_often
from pieceproof.bench.ranking import Care, ranked_seams
from pieceproof.bench.surroundings import BETWEEN_ROWS, IN_ROWS, Seam, surroundings
from pieceproof.bench.table import Flat, moved, pared
from pieceproof.lengths import square_root
from pieceproof.model import Measure
from pieceproof.published import Make, MakeKind, Patch, Picture, Publication
from pieceproof.steps import Assemble, Placed, Side, Yield

F = Fraction
SIXTEENTH = F(1, 16)
ROOT_2 = square_root(2)


def strips(count: int, width: Fraction) -> Publication:
    """Strips 5 long, sewn side by side."""
    seam = F(1, 4)
    total = count * width - 2 * (count - 1) * seam
    row = Assemble("row", ((Placed("A", 0),) * count,), seam, ("right",), "down")
    make = Make("row", MakeKind.TOP, "", 1, 1, 1, total, F(5), (row, Yield(("row",))))
    return publication((piece("A", "dark", width, F(5), count, "row"),), (make,), seam)


def sewn_with(sample: Publication, error: Fraction) -> Outcome:
    (found,) = outcomes(yardstick(sample), (error,))
    return found


def size_of(sample: Publication, make: str, error: Fraction) -> tuple[object, object]:
    found = sewn_with(sample, error).size(make)
    return found.width, found.height


def misfits(found: Outcome) -> set[tuple[str, str, object]]:
    return {(fit.make, fit.what, fit.excess) for fit in found.fits}


def test_three_strips_of_one_and_a_half_inch() -> None:
    """3 1/2 wide with a true quarter inch (check value 101: SEAM)."""
    assert size_of(strips(3, F(3, 2)), "row", F(0)) == (F(7, 2), 5)
    assert size_of(strips(3, F(3, 2)), "row", SIXTEENTH) == (F(13, 4), 5)
    assert size_of(strips(3, F(3, 2)), "row", -SIXTEENTH) == (F(15, 4), 5)


def test_eight_seams_a_sixteenth_too_deep_cost_a_whole_inch() -> None:
    """A seam that is e too deep costs 2e: common practice, no source."""
    found = sewn_with(strips(9, F(5, 2)), SIXTEENTH).size("row")
    assert found.wanted_width - found.width == 1


@pytest.mark.parametrize(
    ("error", "side", "nearest"),
    [
        (F(-1, 16), F(43, 4), F(1, 4)),
        (F(0), F(21, 2), F(1, 4)),
        (F(1, 16), F(41, 4), F(3, 16)),
        (F(1, 8), F(10), F(1, 8)),
        (F(1, 4), F(19, 2), F(0)),
        (F(5, 16), F(37, 4), F(-1, 16)),
    ],
)
def test_the_known_star(error: Fraction, side: Fraction, nearest: Fraction) -> None:
    """Two seams each way; the inner tips go with the seam, the outer ones with their own block."""
    found = sewn_with(star()[0], error)
    assert (found.size("star").width, found.size("star").height) == (side, side)
    assert min(tip.clearance for tip in found.tips if tip.clearance is not None) == nearest
    assert any(tip.is_lost for tip in found.tips) == (nearest < 0)
    outer = [tip.clearance for tip in found.tips if tip.spot.fabric == "points"]
    assert outer == [F(1, 4)] * 2
    assert not found.fits
    assert not found.lines


def test_geese_lose_the_point_that_meets_the_next_seam() -> None:
    """Its lower tips stay: where both seams at a corner are as wide, they meet on the diagonal."""
    lost = [tip for tip in sewn_with(flying_geese()[0], SIXTEENTH).tips if tip.is_lost]
    assert [(t.spot.fabric, t.spot.toward, t.clearance) for t in lost] == [
        ("goose", Side.TOP, -SIXTEENTH)
    ]


def test_trimming_takes_up_a_scant_seam_and_what_is_to_spare_of_a_wide_one() -> None:
    """Squares of 3 7/8 (check value 5) give c - (s + e) root 2, trimmed to 3 1/2 at most."""
    sample = half_square_triangles()[0]
    name = sample.makes[0].name
    assert size_of(sample, name, -SIXTEENTH) == (F(7, 2), F(7, 2))
    assert size_of(sample, name, F(1, 128)) == (F(7, 2), F(7, 2))
    small = F(31, 8) - (F(1, 4) + SIXTEENTH) * ROOT_2
    assert size_of(sample, name, SIXTEENTH) == (small, small)


def test_squares_cut_large_come_out_true_from_a_seam_that_is_too_wide() -> None:
    """1/4 more than needed is enough for a seam 1/16 too wide, which takes 1/16 root 2."""
    unit, cells = triangle_units.SAMPLES["half-square triangles cut large"]
    sample = build(unit, Measure.INCH, F(1, 4), cells).publication
    assert size_of(sample, "unit", SIXTEENTH) == (F(7, 2), F(7, 2))
    assert size_of(sample, "unit", F(1, 8)) == (F(7, 2), F(7, 2))


def test_sashing_and_borders_cut_to_size_no_longer_fit() -> None:
    """Blocks of four seams' loss: 1/4 in each way; the centre loses two more, borders two more."""
    found = sewn_with(sashed_top()[0], SIXTEENTH)
    assert found.size("block").width == F(25, 4)
    assert found.size("centre").width == F(55, 4)
    assert misfits(found) == {
        ("centre", "C", F(1, 4)),
        ("centre", "C and D", F(1, 2)),
        ("top", "E", F(3, 4)),
        ("top", "F", F(1)),
    }
    assert misfits(sewn_with(sashed_top()[0], -SIXTEENTH)) >= {("centre", "C", F(-1, 4))}


def test_seams_across_sashing_come_out_of_line() -> None:
    """Blocks 1/4 in short beside sashes that are not: 5/8 at the ends of five."""
    found = sewn_with(publish_one(runner())[1], SIXTEENTH)
    assert {(line.make, line.by) for line in found.lines} == {("quilt centre", F(5, 8))}


SAMPLES: dict[str, Publication] = {
    **{name: publish_one(example())[1] for name, example in EXAMPLES.items()},
    **{name: sample()[0] for name, sample in INCH_SAMPLES.items()},
    **{f"strips: {name}": in_inches(unit()).publication for name, unit in UNITS.items()},
    **{
        f"triangles: {name}": build(unit, Measure.INCH, F(1, 4), cells).publication
        for name, (unit, cells) in triangle_units.SAMPLES.items()
    },
}


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_exact_seams_give_what_is_published(name: str) -> None:
    found = sewn_with(SAMPLES[name], F(0))
    assert not found.not_followed
    assert {(s.width - s.wanted_width, s.height - s.wanted_height) for s in found.sizes} == {(0, 0)}
    assert all(tip.clearance == tip.spot.clearance for tip in found.tips)
    assert not found.fits
    assert not found.lines


@pytest.mark.parametrize("error", [F(-1, 16), F(1, 16), F(1, 8)])
@pytest.mark.parametrize("name", ["nine patch", "star", "flying geese", "stitched corners"])
def test_a_second_bench_sews_the_same(name: str, error: Fraction) -> None:
    """Where all edges still fit, the judge (Shapely) gives the same patches."""
    sample = INCH_SAMPLES[name]()[0]
    top = sample.makes[-1]
    wide = tuple(
        replace(step, allowance=step.allowance + error) if isinstance(step, Assemble) else step
        for step in top.steps
    )
    other = replace(sample, makes=(*sample.makes[:-1], replace(top, steps=wide)))
    as_block = replace(sample, makes=(*sample.makes[:-1], replace(top, kind=MakeKind.BLOCK)))
    thing = sewn_with(as_block, error).things[top.name]
    (patches,) = finished_makes(other)[top.name]
    assert shows(patches, inside(thing, sample.seam))


def inside(thing: Flat, seam: Fraction) -> Picture:
    faces = moved(pared(thing, seam, seam, seam, seam), -seam, -seam)
    patches = tuple(Patch(face.fabric, face.outline) for face in faces)
    return Picture("", F(1), F(1), patches)


def test_which_seams_lie_around_a_unit() -> None:
    found = surroundings(star()[0])
    edge = Seam("binding", 0)
    rows, columns = Seam("star", 1, BETWEEN_ROWS), Seam("star", 1, IN_ROWS)
    assert set(found["star point"]) == {
        (edge, columns, rows, columns),
        (edge, rows, columns, rows),
    }


def test_seams_ranked() -> None:
    assert {e.care for e in ranked_seams(yardstick(nine_patch()[0]), SIXTEENTH)} == {Care.EVEN}
    assert {e.care for e in ranked_seams(yardstick(star()[0]), SIXTEENTH)} == {Care.EVEN}
    (geese,) = ranked_seams(yardstick(flying_geese()[0]), SIXTEENTH)
    assert (geese.care, geese.cut, geese.size) == (Care.EXACT, SIXTEENTH, F(1, 8))
    first = ranked_seams(yardstick(sashed_top()[0]), SIXTEENTH)[0]
    assert (first.seam.make, first.care, first.misfit) == ("block", Care.EXACT, F(1, 2))


def test_a_trimmed_seam_may_wander() -> None:
    ranked = ranked_seams(yardstick(half_square_triangles()[0]), F(1, 128))
    assert {e.seam.make: e.care for e in ranked} == {
        "top": Care.EXACT,
        "triangle square": Care.FREE,
    }


def test_many_sewings() -> None:
    bench = yardstick(star()[0])
    block = bench.makes[-1]
    exact = sewn_often(bench, block, F(0), 2, 1)
    assert (exact.widths, exact.heights, exact.whole) == ((F(21, 2),) * 2, (F(21, 2),) * 2, 2)
    some = sewn_often(bench, block, F(1, 32), 3, 7)
    assert some == sewn_often(bench, block, F(1, 32), 3, 7)
    assert len(set(some.widths)) == 3
    wild = sewn_often(bench, block, F(1, 4), 4, 7)
    assert wild.whole < 4


def test_a_make_that_cannot_be_followed_is_named_and_taken_as_published() -> None:
    """Strips narrower than two wide seams cannot be sewn, nor a ring of part seams be closed."""
    found = sewn_with(strips(3, F(3, 4)), F(1, 8))
    assert found.not_followed == ("row",)
    assert found.size("row").width == found.size("row").wanted_width
    ring = SAMPLES["strips: ring"]
    assert sewn_with(ring, SIXTEENTH).not_followed == ("unit",)
    assert {e.seam.make for e in ranked_seams(yardstick(ring), SIXTEENTH)} == {"top"}
