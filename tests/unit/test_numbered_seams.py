"""The drawings of seams by number: every number that may be chosen is drawn, and on its seam.

Where seams lie is checked on the finished pictures, which come from the drawing-down side.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from itertools import accumulate
from math import hypot

import pytest
import settings_samples
import template_units
import triangle_units
from quicktions import Fraction
from test_every_seam_settled import DESIGN, SEAMS, compiled, sewn
from text_boxes import overlaps
from whole_path import build

from pieceproof.compile import compile_pattern
from pieceproof.diagrams.numbered_seams import SEAMS_OF, Plate, numbered_seams, seam_plates
from pieceproof.diagrams.subject import Subject, cells_of, make_named, rows_of, subject
from pieceproof.drawing.scene import Letter, Line, Note
from pieceproof.inside_seams import inside_seams
from pieceproof.model import Measure
from pieceproof.pressing_choices import joined_in_rows, numbered, sewn_one_by_one
from pieceproof.published import Make, Patch
from pieceproof.steps import AssembleOnPoint, CloseSeam, Take

UNITS = {**triangle_units.SAMPLES, **template_units.SAMPLES}
BESIDE = 1e-4


@cache
def every_seam() -> Subject:
    sized = sewn("")
    return subject(sized.design, sized.publication, sized.drawing)


@cache
def sample(name: str) -> Subject:
    if name in settings_samples.SAMPLES:
        built = settings_samples.SAMPLES[name]()
    else:
        unit, cells = UNITS[name]
        built = build(unit, Measure.INCH, Fraction(1, 4), cells)
    return subject(built.design, built.publication, built.drawing)


def patches_at(seen: Subject, make: Make, place: tuple[float, float]) -> list[Patch]:
    patches = seen.drawing.pictures[make.name].patches
    return [p for p in patches if p.layer == 0 and is_inside(p, place)]


def is_inside(patch: Patch, place: tuple[float, float]) -> bool:
    """By the number of sides that a level ray crosses."""
    x, y = place
    corners = [(float(a), float(b)) for a, b in patch.outline]
    crossed = 0
    for (ax, ay), (bx, by) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            crossed += 1
    return crossed % 2 == 1


def beside(stretch: tuple[tuple[object, object], ...]) -> list[tuple[float, float]]:
    """Places just beside a stretch, on either side of it, off its middle where others may end."""
    (ax, ay), (bx, by) = (tuple(map(float, end)) for end in stretch)  # type: ignore[arg-type]
    long = hypot(bx - ax, by - ay)
    x, y = ax + 0.47 * (bx - ax), ay + 0.47 * (by - ay)
    dx, dy = (by - ay) / long, (ax - bx) / long
    return [(x + s * BESIDE * dx, y + s * BESIDE * dy) for s in (1, -1)]


def plates_of(seen: Subject) -> Iterator[tuple[Make, str, Plate]]:
    """Every drawing with its make."""
    for name, plate in seam_plates(seen).items():
        shown = name.removeprefix(SEAMS_OF)
        called = {"setting": ("quilt centre", "top"), "borders": ("top",)}.get(shown, (shown,))
        make = next(m for m in seen.publication.makes if m.name in (*called, f"{shown} mirrored"))
        yield make, shown, plate


def check(seen: Subject) -> None:
    """Every seam lies between two patches; its number is drawn, and lies on it."""
    for make, name, plate in plates_of(seen):
        seams = numbered_seams(seen, make)
        assert set(named(make)) == set(seams), name
        shown = [item for item in plate.scene.items if isinstance(item, Letter)]
        assert not overlaps(plate.scene, plate.width), name
        for key, stretches in seams.items():
            for stretch in stretches:
                one, other = (patches_at(seen, make, place) for place in beside(stretch))
                assert len(one) == len(other) == 1, (name, key)
                assert one != other, (name, key)
            if key.startswith("between"):
                assert key in {i.text for i in plate.scene.items if isinstance(i, Note)}
                continue
            places = [i.at for i in shown if i.text == key.rpartition(" ")[2]]
            assert any(far(p, s) < BESIDE for p in places for s in stretches), (name, key)


def named(make: Make) -> tuple[str, ...]:
    """The numbers that may be chosen."""
    thing = joined_in_rows(make.steps) or sewn_one_by_one(make.steps)
    assert thing is not None
    return numbered(thing)


def far(place: tuple[object, object], stretch: tuple[tuple[object, object], ...]) -> float:
    """How far a place is from a straight stretch."""
    (px, py), (ax, ay), (bx, by) = (
        tuple(map(float, at))  # type: ignore[arg-type]
        for at in (place, *stretch)
    )
    dx, dy = bx - ax, by - ay
    along = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy)
    along = min(max(along, 0.0), 1.0)
    return hypot(px - ax - along * dx, py - ay - along * dy)


@pytest.mark.parametrize("name", [*UNITS, *settings_samples.SAMPLES])
def test_every_number_is_drawn_on_its_seam(name: str) -> None:
    check(sample(name))


def test_every_number_of_every_method_is_drawn_on_its_seam() -> None:
    check(every_seam())


def test_all_seams_that_the_steps_press_are_drawn() -> None:
    for name, count in {**SEAMS, "top": 8}.items():
        keys = list(numbered_seams(every_seam(), make_named(every_seam(), name)))
        assert keys == [f"seam {n}" for n in range(1, count + 1)], name


@pytest.mark.parametrize("name", [*SEAMS, "borders", "setting", "chain", "steps centre", "skein"])
def test_every_number_that_is_drawn_may_be_written(name: str) -> None:
    """And one more may not: the numbers are all there are."""
    (make,) = (m for m, shown, _ in plates_of(every_seam()) if shown == name)
    keys = list(numbered_seams(every_seam(), make))
    assert not compiled(f"{name}: {{{', '.join(f'{key}: open' for key in keys)}}}").problems
    last, _, number = keys[-1].rpartition(" ")
    (problem,) = compiled(f"{name}: {{{last} {int(number) + 1}: open}}").problems
    assert problem.code == "pressed-no-seam"


@pytest.mark.parametrize("name", SEAMS)
def test_a_seam_lies_between_the_cloth_that_its_step_joins(name: str) -> None:
    """What closes an open seam is sewn to the others by then."""
    seen = every_seam()
    make = make_named(seen, name)
    taken = {
        step.item: {face.fabric for face in seen.things[step.source].faces}
        for step in make.steps
        if isinstance(step, Take)
    }
    for number, seam in enumerate(inside_seams(make.steps), start=1):
        closed = any(isinstance(make.steps[n], CloseSeam) for n in seam.steps)
        base = taken if closed else seam.base
        sides = [set().union(*(taken[item] for item in items)) for items in (base, seam.added)]
        for stretch in numbered_seams(seen, make)[f"seam {number}"]:
            one, other = (patches_at(seen, make, place)[0].fabric for place in beside(stretch))
            ways = ((one, other), (other, one))
            assert any(a in sides[0] and b in sides[1] for a, b in ways), number


@pytest.mark.parametrize("name", ["chain", "skein", "steps centre", "quilt centre"])
def test_seams_of_rows_lie_where_the_cells_end(name: str) -> None:
    """By adding up finished sizes of the cells, as they are published."""
    seen = every_seam()
    step = rows_of(make_named(seen, name))
    assert step is not None
    rows, around = cells_of(seen, step), 2 * seen.publication.seam
    downs = list(accumulate(row[0].flat.height - around for row in rows))
    expected: dict[str, float] = {f"between {n}": float(y) for n, y in enumerate(downs[:-1], 1)}
    for r, row in enumerate(rows, start=1):
        across = accumulate(cell.flat.width - around for cell in row[:-1])
        expected |= {f"row {r} seam {n}": float(x) for n, x in enumerate(across, start=1)}
    seams: Mapping[str, object] = numbered_seams(seen, make_named(seen, name))
    assert list(seams) == sorted(expected, key=lambda key: (key.startswith("between"), key))
    for key, stretches in numbered_seams(seen, make_named(seen, name)).items():
        axis = 1 if key.startswith("between") else 0
        assert {float(end[axis]) for s in stretches for end in s} == {expected[key]}, key


SKIP = """\
units:
  two: {method: plain patch, size: 2 x 2, fabric: ground}
  three: {method: plain patch, size: 3 x 2, fabric: dark}
  other: {method: plain patch, size: 2 x 2, fabric: warm}
  tip: {method: half-square triangles, size: 2, top left: dark, bottom right: ground}
blocks:
  skip: {rows: [[two, three, other], [tip, three, tip]]}
"""


@pytest.mark.parametrize(("cell", "first", "last"), [("skip", 2, 5), ("skip mirrored", 5, 2)])
def test_the_mirror_image_counts_its_rows_from_the_right(cell: str, first: int, last: int) -> None:
    """As the choice that the writer makes for the block does."""
    setting = f"setting: {{layout: straight, rows: [[{cell}], [{cell}]]}}\n"
    text = DESIGN[: DESIGN.index("units:")] + SKIP + setting
    (sized,) = compile_pattern("skip", {"pattern.yaml": text.encode()}).sizes
    seen = subject(sized.design, sized.publication, sized.drawing)
    (make,) = (make for make, shown, _ in plates_of(seen) if shown == "skip")
    assert make.name == cell
    seams = numbered_seams(seen, make)
    places = [float(seams[f"row 1 seam {n}"][0][0][0]) for n in (1, 2)]
    assert places == [first, last]


def test_rows_on_point_are_numbered_from_their_first_triangle() -> None:
    """A row of sashes ends in no triangle; its seams keep the numbers that its words have."""
    seen = sample("sashed on point")
    make = next(m for m in seen.publication.makes if m.name in ("quilt centre", "top"))
    step = next(s for s in make.steps if isinstance(s, AssembleOnPoint))
    keys = numbered_seams(seen, make)
    for r, row in enumerate(step.rows, start=1):
        first, last = (1, len(row.cells) + 1) if row.first else (2, len(row.cells))
        found = [key for key in keys if key.startswith(f"row {r} ")]
        assert found == [f"row {r} seam {n}" for n in range(first, last + 1)]
    assert [key for key in keys if key.startswith("between")] == [
        f"between {n}" for n in range(1, len(step.rows))
    ]


def test_a_seam_that_needs_no_number_is_not_drawn() -> None:
    """A half-square triangle has one seam, which the file calls `seam`."""
    for name in UNITS:
        for make in sample(name).publication.makes:
            if make.method == "half-square triangles":
                assert not numbered_seams(sample(name), make)


def test_seams_are_drawn_from_end_to_end() -> None:
    """Four logs of 2 in around a square of 2 in, added up by hand."""
    plate = seam_plates(every_seam())[f"{SEAMS_OF}cabin"]
    lines = [item.points for item in plate.scene.items if isinstance(item, Line)]
    assert [{min(line), max(line)} for line in lines] == [
        {(2, 2), (4, 2)},
        {(4, 0), (4, 4)},
        {(2, 4), (6, 4)},
        {(2, 0), (2, 6)},
    ]
