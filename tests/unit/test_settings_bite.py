"""Every single number of a setting is held by the bench: change one, and it says so."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from judge import finished_makes, is_same_cloth, shows
from mutate import mutations
from quicktions import Fraction
from settings_samples import (
    GROUND,
    HEART,
    STONE,
    WATER,
    WING,
    Built,
    F,
    build,
    cells,
    design,
    plain,
)

from pieceproof.bench import prove
from pieceproof.model import (
    Border,
    Cell,
    CopingRound,
    Grid,
    Medallion,
    OnPoint,
    PiecedRound,
    PiecedSashing,
    PiecedSashingOnPoint,
    PlainRound,
    SashingOnPoint,
    SetRow,
    Setting,
    Size,
    Strip,
    UnequalColumns,
    UnequalRows,
    Unit,
)

SHARES = range(2)


def two_coloured(side: Fraction, name: str = "flag") -> dict[str, Unit | Grid]:
    """A square of two rectangles, which looks different in every turn and is not trimmed."""
    half, halve = f"{name} top", f"{name} foot"
    return {
        half: plain(side, side / 2, WING),
        halve: plain(side, side / 2, GROUND),
        name: Grid(((Cell(half),), (Cell(halve),))),
    }


def on_point() -> Built:
    """Two rows, with both kinds of ends, whose floats differ both ways."""
    return build(design(OnPoint(cells("flag flag/1"), HEART), two_coloured(F(4))))


def upright_on_point() -> Built:
    """Rows that go on to the left, with a border."""
    setting = OnPoint(cells("flag", "flag/1"), HEART, STONE, float=F(1, 2))
    return build(design(setting, two_coloured(F(3)), borders=(Border(WATER, F(1)),)))


def sashed_on_point() -> Built:
    """Two plain blocks, sashes with squares of another fabric."""
    sashing = SashingOnPoint(STONE, F(1), WATER)
    setting = OnPoint(cells("block block"), GROUND, sashing=sashing)
    return build(design(setting, {"block": plain(F(4), F(4))}))


def pieced_on_point() -> Built:
    """One plain block, sashes of two colours, the squares floating off the edge."""
    units = {"bar": plain(F(1), F(2), STONE), "rung": plain(F(1), F(2)), "block": plain(F(4), F(4))}
    sashing = PiecedSashingOnPoint(Cell("sash"), WATER)
    setting = OnPoint(cells("block"), GROUND, float=F(1), pieced_sashing=sashing)
    return build(design(setting, {**units, "sash": Grid(cells("bar", "rung"))}))


def lone_block() -> Built:
    """One block in four corners, trimmed wider than high."""
    setting = OnPoint(cells("flag"), HEART, trim_to=Size(F(9), F(8)))
    return build(design(setting, two_coloured(F(5))))


def rows() -> Built:
    """A row that fits, one with spacers, one made up by coping strips of two widths."""
    setting = UnequalRows(
        (
            SetRow(cells("flag flag/1")[0]),
            SetRow(cells("bar bar")[0], spacers=Strip(GROUND, F(2))),
            SetRow(cells("bar")[0], coping=WATER),
        ),
        Strip(STONE, F(1)),
    )
    return build(design(setting, {"bar": plain(F(3), F(2), STONE), **two_coloured(F(4))}))


def columns() -> Built:
    """Two columns of different width and a strip between."""
    setting = UnequalColumns(
        (SetRow(cells("flag flag/1")[0]), SetRow(cells("bar")[0], coping=WATER)),
        Strip(STONE, F(1)),
    )
    return build(design(setting, {"bar": plain(F(3), F(2), STONE), **two_coloured(F(4))}))


def medallion() -> Built:
    """Coping one way, a pieced round with pieced corners, a plain round with plain corners."""
    rounds = (
        CopingRound(GROUND, Size(F(6), F(4))),
        PiecedRound(Cell("bar"), Cell("flag", 1)),
        PlainRound(WATER, F(1), Cell("stone")),
    )
    units = {"square": plain(F(4), F(4)), "bar": plain(F(2), F(3), WING), **two_coloured(F(3))}
    return build(design(Medallion(Cell("square"), rounds), units))


def pieced_sashing() -> Built:
    """Blocks and plain ones turn about between sashes of two colours."""
    units = {"bar": plain(F(1), F(2), STONE), "rung": plain(F(1), F(2)), **two_coloured(F(4))}
    sashing = PiecedSashing(Cell("sash"), Cell("water"))
    setting = Setting(cells("flag ground", "ground flag/1"), pieced_sashing=sashing)
    return build(design(setting, units | {"sash": Grid(cells("bar", "rung"))}))


SAMPLES: dict[str, Callable[[], Built]] = {
    "on point": on_point,
    "upright on point": upright_on_point,
    "sashed on point": sashed_on_point,
    "pieced sashing on point": pieced_on_point,
    "lone block": lone_block,
    "rows": rows,
    "columns": columns,
    "medallion": medallion,
    "pieced sashing": pieced_sashing,
}


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_changed_number_is_noticed(name: str, share: int) -> None:
    made = SAMPLES[name]()
    publication, drawing = made.publication, made.drawing
    missed, false_alarms = [], []
    for number, mutation in enumerate(mutations(publication)):
        if number % len(SHARES) != share:
            continue
        noticed = bool(prove(mutation.publication, drawing))
        same = mutation.is_direction and is_same_cloth(publication, mutation.publication)
        if not noticed and not same:
            missed.append(f"{mutation.path}: {mutation.change}")
        if noticed and same:
            false_alarms.append(f"{mutation.path}: {mutation.change}")
    assert not missed
    assert not false_alarms


@pytest.mark.parametrize("name", SAMPLES)
def test_an_independent_sewing_shows_the_drawing(name: str) -> None:
    made = SAMPLES[name]()
    top = made.publication.makes[-1].name
    (sewn,) = finished_makes(made.publication)[top]
    assert made.disagreements() == []
    assert shows(sewn, made.drawing.pictures[top])
