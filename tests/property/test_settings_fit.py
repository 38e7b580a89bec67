"""Random settings go through both proofs without disagreement and fill the top exactly."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction
from settings_samples import (
    GROUND,
    HEART,
    STONE,
    WATER,
    WING,
    Built,
    F,
    blade,
    build,
    cells,
    design,
    plain,
)
from shapely import Polygon, box, union_all

from pieceproof.lengths import square_root
from pieceproof.methods.half_square_triangles import HalfSquareTriangles
from pieceproof.methods.plain_patch import PlainPatch
from pieceproof.model import (
    Border,
    Cell,
    CopingRound,
    Grid,
    Measure,
    Medallion,
    OnPoint,
    PiecedRound,
    PiecedSashing,
    PiecedSashingOnPoint,
    PlainRound,
    Round,
    Sashing,
    SashingOnPoint,
    SashingPlace,
    SetRow,
    Setting,
    Size,
    Strip,
    UnequalColumns,
    UnequalRows,
    Unit,
)
from pieceproof.on_point import least_size

measures = st.sampled_from(list(Measure))
counts = st.integers(1, 3)


def lengths(measure: Measure, low: int, high: int) -> st.SearchStrategy[Fraction]:
    """Lengths on the ruler's grid, in its unit."""
    per_unit = int(1 / measure.step)
    return st.integers(low * per_unit, high * per_unit).map(lambda n: n * measure.step)


def fills(made: Built) -> None:
    """The top's patches cover its rectangle and nothing twice (Shapely)."""
    picture = made.drawing.pictures[made.publication.makes[-1].name]
    shapes = [Polygon([(float(x), float(y)) for x, y in p.outline]) for p in picture.patches]
    whole = box(0, 0, float(picture.width), float(picture.height))
    assert abs(sum(shape.area for shape in shapes) - whole.area) < 1e-6
    assert union_all(shapes).symmetric_difference(whole).area < 1e-6


@settings(max_examples=12, deadline=None)
@given(st.data(), measures, counts, counts)
def test_on_point_with_sashes(
    data: st.DataObject, measure: Measure, across: int, down: int
) -> None:
    size = 2 * data.draw(lengths(measure, 1, 8))
    wide = data.draw(lengths(measure, 1, 4)) / 2 + measure.step
    wide -= wide % measure.step
    seam = data.draw(st.sampled_from((measure.step * 2, measure.step * 3)))
    setting = OnPoint(
        cells("blade blade/2", "blade/3 blade*"), HEART, WING, across, down,
        data.draw(st.sampled_from(((), cells("blade/1")))), data.draw(lengths(measure, 0, 3)),
    )  # fmt: skip
    units: dict[str, Unit | Grid] = {"blade": blade(size)}
    if data.draw(st.booleans()):
        stones = data.draw(st.sampled_from((None, STONE)))
        setting = replace(setting, sashing=SashingOnPoint(WATER, wide, stones))
    else:
        units |= {"bar": plain(wide, size / 2, STONE), "rung": plain(wide, size / 2)}
        units["sash"] = Grid(cells("bar", "rung"))
        setting = replace(setting, pieced_sashing=PiecedSashingOnPoint(Cell("sash"), WATER))
    borders = data.draw(st.sampled_from(((), (Border(WATER, F(1)),))))
    made = build(design(setting, units, measure, borders, seam))
    assert made.disagreements() == []
    fills(made)
    pitch = float(size + wide) * 2**0.5
    around = 2 * (borders[0].width if borders else 0)
    floats = float(made.publication.width - around) - across * pitch
    assert 2 * setting.float - F(1, 10**9) <= floats < 2 * setting.float + measure.step


@settings(max_examples=12, deadline=None)
@given(st.data(), measures, counts, counts)
def test_on_point(data: st.DataObject, measure: Measure, across: int, down: int) -> None:
    size = data.draw(lengths(measure, 2, 20))
    seam = data.draw(st.sampled_from((measure.step * 2, measure.step * 3)))
    alternates = data.draw(st.sampled_from(((), cells("ground"), cells("blade/1 blade"))))
    setting = OnPoint(
        cells("blade blade/2", "blade/3 blade*"), HEART, data.draw(st.sampled_from((None, WING))),
        across, down, alternates, data.draw(lengths(measure, 0, 3)),
    )  # fmt: skip
    if data.draw(st.booleans()):
        least = least_size(setting, size, measure.step)
        more = [data.draw(lengths(measure, 0, 2)) for _ in "xy"]
        setting = OnPoint(
            setting.rows, HEART, setting.corners, across, down, alternates, setting.float,
            Size(least.width + more[0], least.height + more[1]),
        )  # fmt: skip
    borders = data.draw(st.sampled_from(((), (Border(WATER, F(1)),))))
    made = build(design(setting, {"blade": blade(size)}, measure, borders, seam))
    assert made.disagreements() == []
    fills(made)
    fills_on_point(made, setting, size)
    assert "on the straight grain" in made.words()


@settings(max_examples=20, deadline=None)
@given(st.data(), measures, st.booleans())
def test_rows_and_columns(data: st.DataObject, measure: Measure, upright: bool) -> None:
    """Rows of random blocks and spacers, the shorter ones made up by coping strips."""
    sizes = lengths(measure, 1, 12)
    units: dict[str, Unit | Grid] = {}
    rows = []
    for number in range(data.draw(st.integers(1, 3))):
        across, along = data.draw(sizes), data.draw(sizes)
        width, height = (across, along) if upright else (along, across)
        units[f"patch{number}"], units[f"blade{number}"] = plain(width, height), blade(across)
        word = data.draw(st.sampled_from(("patch{0}", "patch{0}/2 blade{0}/1", "blade{0}*")))
        (row,) = cells(word.format(number))
        spacer = data.draw(st.sampled_from((None, Strip(WING, data.draw(sizes)))))
        rows.append(SetRow(row, data.draw(st.integers(1, 3)), spacer, HEART))
    between = data.draw(st.sampled_from((None, Strip(GROUND, data.draw(sizes)))))
    kind = UnequalColumns if upright else UnequalRows
    made = build(design(kind(tuple(rows), between), units, measure))
    assert made.disagreements() == []
    fills(made)
    longest = max(length_of(row, units, upright) for row in rows)
    assert (made.publication.height if upright else made.publication.width) == longest


def length_of(row: SetRow, units: Mapping[str, Unit | Grid], upright: bool) -> Fraction:
    """Cells times their length along the row, and the spacers between them."""
    total = Fraction(0)
    for cell in row.cells:
        unit = units[cell.name]
        if isinstance(unit, PlainPatch):
            total += unit.size.height if upright else unit.size.width
        elif isinstance(unit, HalfSquareTriangles):
            total += unit.size
    spacers = len(row.cells) * row.times - 1
    return total * row.times + (row.spacers.width * spacers if row.spacers else 0)


@settings(max_examples=20, deadline=None)
@given(st.data(), measures)
def test_medallions(data: st.DataObject, measure: Measure) -> None:
    """A centre, coping up to whole units, a pieced round, a plain one; both with corners."""
    step = measure.step
    width, height = data.draw(lengths(measure, 3, 12)), data.draw(lengths(measure, 3, 12))
    unit, deep = data.draw(lengths(measure, 1, 6)), data.draw(lengths(measure, 1, 4))
    unit *= 2
    width, height = width * 2, height * 2
    target = Size(*(whole_units(side, unit, step) for side in (width, height)))
    units = {"centre": plain(width, height), "unit": plain(unit, deep, STONE), "post": blade(deep)}
    corners = data.draw(st.sampled_from((None, Cell("ground"))))
    rounds: tuple[Round, ...] = (
        PiecedRound(Cell("unit"), data.draw(st.sampled_from((Cell("post", 1), Cell("water"))))),
        PlainRound(WATER, data.draw(lengths(measure, 1, 3)), corners),
    )
    if target != Size(width, height):
        rounds = (CopingRound(GROUND, target), *rounds)
    made = build(design(Medallion(Cell("centre"), rounds), units, measure))
    assert made.disagreements() == []
    fills(made)
    assert made.wanted("post") in (0, 4)
    around = sum(p.count for p in made.publication.pieces if p.fabric == "stone")
    assert around == 2 * (target.width + target.height) / unit


def whole_units(side: Fraction, unit: Fraction, step: Fraction) -> Fraction:
    """The least number of whole units around a side that leaves coping strips on the ruler."""
    sizes = (n * unit for n in range(1, 1000))
    return next(s for s in sizes if s >= side and not (s - side) / 2 % step)


@settings(max_examples=15, deadline=None)
@given(st.data(), measures, counts, counts)
def test_straight_with_sashing(
    data: st.DataObject, measure: Measure, across: int, down: int
) -> None:
    """Blocks and plain ones turn about; plain sashes, or two-coloured ones, of which the
    cornerstones may be pieced."""
    size, wide = data.draw(lengths(measure, 2, 12)), data.draw(lengths(measure, 1, 3))
    place = data.draw(st.sampled_from(list(SashingPlace)))
    rows = cells("star ground", "ground star/1")
    units: dict[str, Unit | Grid] = {"star": blade(size)}
    if data.draw(st.booleans()):
        stones = data.draw(st.sampled_from((None, STONE)))
        setting = Setting(rows, across, down, Sashing(WATER, wide, stones, place))
    else:
        units |= {"post": blade(wide), "sash": plain(wide, size, WATER)}
        if not size / 2 % measure.step:
            units |= {"half": plain(wide, size / 2), "halve": plain(wide, size / 2, WATER)}
            units["sash"] = Grid(cells("half", "halve"))
        post = data.draw(st.sampled_from((Cell("post"), Cell("post", 1), Cell("wing"))))
        setting = Setting(rows, across, down, None, PiecedSashing(Cell("sash"), post, place))
    made = build(design(setting, units, measure))
    assert made.disagreements() == []
    fills(made)


def fills_on_point(made: Built, setting: OnPoint, size: Fraction) -> None:
    """At least the float beyond the tips, less than a step more where no size is stated."""
    publication, border = made.publication, 2 * sum(b.width for b in made.design.borders)
    across, down = setting.across or 1, setting.down or 1
    for found, count in ((publication.width, across), (publication.height, down)):
        over = found - border - count * size * square_root(2) - 2 * setting.float
        assert over >= 0
        assert setting.trim_to is not None or over < publication.step
