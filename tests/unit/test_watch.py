"""The bench watched at work: the snapshots are the cloth that is proved, not another telling."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from math import atan2, degrees

import pytest
from bench_samples import INCH_SAMPLES
from examples import EXAMPLES, design_of_corners, publish_one
from method_path import sewn_unit
from quicktions import Fraction
from shapely import Point, Polygon
from strip_units import UNITS
from template_units import SAMPLES as TEMPLATES
from triangle_units import SAMPLES as TRIANGLES
from whole_path import build

from pieceproof.bench.sewing import Shop, sew
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import Face, Faces, covered
from pieceproof.bench.watch import Lying, Mark, MarkKind, Moment, Snapshot, sewn_makes, watch
from pieceproof.diagrams.stages import things_of
from pieceproof.lengths import Number
from pieceproof.model import Measure
from pieceproof.published import Make, Publication
from pieceproof.shapes import canonical
from pieceproof.steps import Step, Take, Yield

PUBLICATIONS: dict[str, Publication] = {
    **{name: publish_one(example())[1] for name, example in EXAMPLES.items()},
    **{name: sample()[0] for name, sample in INCH_SAMPLES.items()},
}
MAKES = [
    pytest.param(publication, make, id=f"{name}: {make.name}")
    for name, publication in PUBLICATIONS.items()
    for make in publication.makes
]


def named(example: str, make: str) -> tuple[Publication, Make]:
    publication = PUBLICATIONS[example]
    return publication, next(m for m in publication.makes if m.name == make)


def outlines(faces: Faces) -> Counter[object]:
    return Counter((face.letter, canonical(face.outline)) for face in faces)


@pytest.mark.parametrize(("publication", "make"), MAKES)
def test_the_last_snapshot_is_what_comes_off_the_bench(
    publication: Publication, make: Make
) -> None:
    before = publication.makes[: publication.makes.index(make)]
    finished = sew(make.steps, Shop(sewn_makes(publication, before), publication.seam)).finished
    last = watch(publication, make)[-1].lying
    assert [outlines(thing.faces) for thing in last] == [outlines(f.faces) for f in finished]
    assert not any(thing.over for thing in last)


@pytest.mark.parametrize(("publication", "make"), MAKES)
def test_every_step_but_the_last_is_told_once_and_in_order(
    publication: Publication, make: Make
) -> None:
    told: list[Step] = [step for s in watch(publication, make) for step in s.steps]
    assert told == [step for step in make.steps if not isinstance(step, Yield)]


@pytest.mark.parametrize(("publication", "make"), MAKES)
def test_a_cut_loses_no_cloth(publication: Publication, make: Make) -> None:
    snapshots = watch(publication, make)
    for before, after in pairwise(snapshots):
        if before.moment is Moment.SEWN and after.moment is Moment.CUT:
            assert cloth_in(before) == cloth_in(after)


def cloth_in(snapshot: Snapshot) -> object:
    return sum((covered((*t.faces, *t.over)) for t in snapshot.lying), Fraction(0))


@pytest.mark.parametrize(
    ("example", "make", "moments"),
    [
        ("runner", "point", "sewn cut pressed sewn pressed"),
        ("place mat", "goose unit", "sewn cut pressed sewn pressed"),
        ("quilt", "blade", "sewn cut pressed trimmed"),
        ("hourglasses", "hourglass", "sewn cut pressed sewn trimmed"),
        ("runner", "star", "laid"),
    ],
)
def test_a_unit_has_three_to_five_stages(example: str, make: str, moments: str) -> None:
    snapshots = watch(*named(example, make))
    assert [snapshot.moment.value for snapshot in snapshots] == moments.split()


def test_four_corners_are_told_in_five_stages() -> None:
    publication = publish_one(design_of_corners(Fraction(4), Fraction(3, 2)))[1]
    snapshots = watch(publication, publication.makes[0])
    assert [s.moment.value for s in snapshots] == ["sewn", "cut", "pressed", "sewn", "pressed"]
    assert len(snapshots[-1].lying[0].faces) == 5


def test_seams_of_a_pair_lie_one_allowance_from_the_drawn_line() -> None:
    """Stitched 1/4 in on either side of the line: the method's own definition."""
    (pair,) = watch(*named("quilt", "blade"))[0].lying
    (drawn,) = marks(pair, MarkKind.PENCIL)
    seams = marks(pair, MarkKind.SEAM)
    assert len(seams) == 2
    for seam in seams:
        for x, y in (seam.start, seam.end):
            away = abs(float(x) + float(y) - float(drawn.start[0]) - float(drawn.start[1]))
            assert away / 2**0.5 == pytest.approx(0.25)


def test_a_line_that_is_sewn_on_is_not_drawn_twice() -> None:
    (base,) = watch(*named("runner", "point"))[0].lying
    assert not marks(base, MarkKind.PENCIL)
    assert len(marks(base, MarkKind.SEAM)) == 1
    assert len(marks(base, MarkKind.CUT)) == 1


def test_pressed_seams_point_to_the_cloth_that_takes_the_allowances() -> None:
    """Corner squares are pressed outward, to the corner they cover."""
    (base,) = watch(*named("runner", "point"))[2].lying
    (pressed,) = marks(base, MarkKind.PRESSED)
    assert pressed.toward is not None
    assert pressed.toward[0] < 0 < pressed.toward[1]


def test_a_seam_from_mark_to_mark_points_to_what_was_added() -> None:
    """Every seam of a hexagon flower: the arrow leads from the cloth before it to the new piece."""
    flower = TEMPLATES["a flower of hexagons"][0]
    publication = build(flower, Measure.INCH, Fraction(1, 4)).publication
    make = publication.makes[0]
    shown = [s for s in watch(publication, make) if s.moment is Moment.JOINED]
    before = 1
    for snapshot in shown:
        (thing,) = snapshot.lying
        if len(thing.faces) == before + 1:
            (seam,) = marks(thing, MarkKind.PRESSED)
            there, back = beside(seam)
            assert holds(thing.faces[-1:], there)
            assert holds(thing.faces[:-1], back)
        before = len(thing.faces)


def test_seams_round_a_ring_point_from_what_was_there_to_the_new_strip() -> None:
    """Top, right, bottom, left, and the open half: the last one lies between left and top."""
    publication = sewn_unit(UNITS["ring"](), Measure.INCH, Fraction(1, 4)).publication
    make = publication.makes[0]
    shown = [s for s in watch(publication, make) if s.moment in (Moment.JOINED, Moment.CLOSED)]
    letters = [step.source for step in make.steps if isinstance(step, Take)]
    added = [*letters[1:], letters[1]]
    assert len(shown) == len(added)
    for snapshot, letter in zip(shown, added, strict=True):
        (thing,) = snapshot.lying
        (seam,) = marks(thing, MarkKind.PRESSED)
        there, back = beside(seam)
        assert holds([face for face in thing.faces if face.letter == letter], there)
        assert holds([face for face in thing.faces if face.letter != letter], back)


def beside(seam: Mark) -> tuple[tuple[Number, ...], tuple[Number, ...]]:
    """Just beyond the middle of a seam: where its allowances go, and on the other side."""
    middle = [(a + b) / 2 for a, b in zip(seam.start, seam.end, strict=True)]
    assert seam.toward is not None
    toward = [t / 1000 for t in seam.toward]
    there = tuple(m + t for m, t in zip(middle, toward, strict=True))
    return there, tuple(m - t for m, t in zip(middle, toward, strict=True))


def holds(faces: Sequence[Face], place: tuple[Number, ...]) -> bool:
    outlines = [Polygon([(float(x), float(y)) for x, y in face.outline]) for face in faces]
    return any(outline.contains(Point(*map(float, place))) for outline in outlines)


def marks(thing: Lying, kind: MarkKind) -> list[Mark]:
    return [mark for mark in thing.marks if mark.kind is kind]


def test_a_publication_that_cannot_be_sewn_is_our_bug() -> None:
    publication = PUBLICATIONS["runner"]
    backwards = publication.makes[::-1]
    with pytest.raises(CannotSew):
        sewn_makes(publication, backwards)


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("half-square triangles four at a time", 4),
        ("half-square triangles eight at a time", 8),
    ],
)
def test_parts_cut_again_lie_apart_all_round(name: str, parts: int) -> None:
    publication = build(TRIANGLES[name][0], Measure.INCH, Fraction(1, 4)).publication
    cut = next(s for s in watch(publication, publication.makes[0]) if s.moment is Moment.CUT)
    ways = {
        round(degrees(atan2(float(lying.apart[1]), float(lying.apart[0])))) % 360
        for lying in cut.lying
    }
    turns = sorted(ways)
    between = {(b - a) % 360 for a, b in zip(turns, (*turns[1:], turns[0]), strict=True)}
    assert len(ways) == parts
    assert min(between) > 360 / parts / 2


def test_what_is_joined_alike_is_shown_once() -> None:
    """A pair, a half, the star, the first patch set in, the unit."""
    publication = build(TEMPLATES["eight-point star"][0], Measure.INCH, Fraction(1, 4)).publication
    shown = watch(publication, publication.makes[0])
    assert [len(s.lying[0].faces) for s in shown] == [2, 4, 8, 9, 16]


def test_all_parts_of_a_cut_are_drawn_though_they_are_alike() -> None:
    """Two triangles from a square; once they are sewn on, one of several is enough."""
    unit, cells = next(
        sample for name, sample in TRIANGLES.items() if name.startswith("square in square")
    )
    publication = build(unit, Measure.INCH, Fraction(1, 4), cells).publication
    first = watch(publication, publication.makes[0])[0]
    assert first.moment is Moment.CUT
    drawn = things_of(first, 0.01)
    assert len(drawn) == 2
    assert {len(thing.faces[0].outline) for thing in drawn} == {3}
