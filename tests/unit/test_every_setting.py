"""Every setting, border and finish has all that it must have, so that none is added by halves.

One table names them all, with the test that tries each at random sizes and seams, and the test
that holds it against the outside where there is something outside to hold it against.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache

import pytest
from examples import EXAMPLES
from finishing_samples import BORDERED, ENDS_FIRST, design_of, finish
from pattern_designs import ROOT, designs
from quicktions import Fraction
from settings_samples import SAMPLES, cells, design, two_coloured
from text_boxes import overlaps
from whole_path import HEART, WATER, WING

from pieceproof.backs import Seams
from pieceproof.bench import prove, show_disagreement
from pieceproof.construct import construct
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.subject import subject
from pieceproof.geometry import draw, with_mirror_images
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.model import (
    AnyBorder,
    Backing,
    Batting,
    Bed,
    Binding,
    BindingFold,
    BindingGrain,
    Border,
    BorderOrder,
    Cell,
    CopingRound,
    Design,
    Mattress,
    Medallion,
    MiddleSeam,
    MitredBorder,
    OnPoint,
    PiecedBorder,
    PiecedRound,
    PlainRound,
    SashingPlace,
    Setting,
    Sleeve,
    UnequalColumns,
    UnequalRows,
)
from pieceproof.published import Drawing, Publication

F = Fraction
Test = Callable[[Design], bool]


@dataclass(frozen=True)
class Asked:
    """What a design may ask for: whether one does, and the tests of it as ``file::name``."""

    by: Test
    at_random: str
    outside: str = ""


def _set(kind: type, more: Callable[[object], bool] = lambda _: True) -> Test:
    return lambda d: isinstance(d.setting, kind) and more(d.setting)


def _sashed(place: SashingPlace, has_stones: bool) -> Test:
    def asks(design: Design) -> bool:
        sashing = design.setting.sashing if isinstance(design.setting, Setting) else None
        stones = sashing and sashing.cornerstones
        return sashing is not None and sashing.place is place and bool(stones) is has_stones

    return asks


def _round(kind: type) -> Test:
    return lambda d: (
        isinstance(d.setting, Medallion) and any(isinstance(r, kind) for r in d.setting.rounds)
    )


def _bordered(kind: type[AnyBorder], more: Callable[[Border], bool] = lambda _: True) -> Test:
    return lambda d: any(isinstance(b, kind) and more(b) for b in d.borders)  # type: ignore[arg-type]


def _bound(fold: BindingFold, grain: BindingGrain) -> Test:
    return lambda d: d.binding is not None and (d.binding.fold, d.binding.grain) == (fold, grain)


def _back(middle: MiddleSeam) -> Test:
    return lambda d: d.backing is not None and d.backing.middle_seam is middle


_ON_POINT = "test_settings.py::test_squares_for_setting_triangles"
_STRIPS = "test_border_lengths.py::test_four_strips_of_a_border_cut_six_and_a_half"
_FITS = "test_settings_fit.py::test_"
_ENDS = "test_finishing_fits.py::test_finishing_is_proved"
_BIAS = "test_finishing_sizes.py::test_shapely_measures_the_same_strip"
_BINDING = "test_cloth_lengths.py::test_binding_of_fifty_by_sixty_takes_six_strips"
_BACKS = "test_cloth_lengths.py::test_backs_for_beds"
_SASHED = "test_settings.py::test_sashed_size_of_five_by_six"

ASKED: Mapping[str, Asked] = {
    "straight": Asked(_set(Setting), _FITS + "straight_with_sashing", _SASHED),
    "sashing between, cornerstones": Asked(
        _sashed(SashingPlace.BETWEEN, True), _FITS + "straight_with_sashing", _SASHED
    ),
    "sashing between, no cornerstones": Asked(
        _sashed(SashingPlace.BETWEEN, False), _FITS + "straight_with_sashing"
    ),
    "sashing all round, cornerstones": Asked(
        _sashed(SashingPlace.AROUND, True),
        _FITS + "straight_with_sashing",
        "test_settings.py::test_sashing_all_round_four_by_five",
    ),
    "sashing all round, no cornerstones": Asked(
        _sashed(SashingPlace.AROUND, False), _FITS + "straight_with_sashing"
    ),
    "pieced sashing": Asked(
        _set(Setting, lambda s: s.pieced_sashing is not None),  # type: ignore[attr-defined]
        _FITS + "straight_with_sashing",
    ),
    "on point": Asked(_set(OnPoint), _FITS + "on_point", _ON_POINT),
    "setting triangles that float": Asked(
        _set(OnPoint, lambda s: s.float > 0),  # type: ignore[attr-defined]
        _FITS + "on_point",
        "test_settings.py::test_squares_cut_oversize",
    ),
    "alternate blocks": Asked(
        _set(OnPoint, lambda s: bool(s.alternates)),  # type: ignore[attr-defined]
        _FITS + "on_point",
        "test_settings.py::test_counts_on_point",
    ),
    "sashing on point": Asked(
        _set(OnPoint, lambda s: s.sashing is not None),  # type: ignore[attr-defined]
        _FITS + "on_point_with_sashes",
    ),
    "pieced sashing on point": Asked(
        _set(OnPoint, lambda s: s.pieced_sashing is not None),  # type: ignore[attr-defined]
        _FITS + "on_point_with_sashes",
    ),
    "unequal rows": Asked(_set(UnequalRows), _FITS + "rows_and_columns"),
    "unequal columns": Asked(_set(UnequalColumns), _FITS + "rows_and_columns"),
    "medallion": Asked(
        _set(Medallion),
        _FITS + "medallions",
        "test_settings.py::test_a_border_and_a_plain_round_add_alike",
    ),
    "plain round": Asked(
        _round(PlainRound),
        _FITS + "medallions",
        "test_settings.py::test_a_border_and_a_plain_round_add_alike",
    ),
    "pieced round": Asked(_round(PiecedRound), _FITS + "medallions"),
    "coping strips": Asked(
        _round(CopingRound), _FITS + "medallions", "test_settings.py::test_coping_strips"
    ),
    "border, sides first": Asked(
        _bordered(Border, lambda b: b.order is BorderOrder.SIDES_FIRST),
        "test_borders_fit.py::test_plain_borders_are_proved",
        _STRIPS,
    ),
    "border, ends first": Asked(
        _bordered(Border, lambda b: b.order is BorderOrder.ENDS_FIRST),
        "test_borders_fit.py::test_plain_borders_are_proved",
        _STRIPS,
    ),
    "border with cornerstones": Asked(
        _bordered(Border, lambda b: b.cornerstones is not None),
        "test_borders_fit.py::test_plain_borders_are_proved",
    ),
    "mitred border": Asked(
        _bordered(MitredBorder),
        "test_borders_fit.py::test_plain_borders_are_proved",
        "test_border_lengths.py::test_a_mitred_strip_adds_at_least_two_widths",
    ),
    "pieced border": Asked(
        _bordered(PiecedBorder), "test_borders_fit.py::test_units_that_fit_are_proved"
    ),
    "binding, double and straight": Asked(
        _bound(BindingFold.DOUBLE, BindingGrain.STRAIGHT), _ENDS, _BINDING
    ),
    "binding, single and straight": Asked(
        _bound(BindingFold.SINGLE, BindingGrain.STRAIGHT), _ENDS, _BINDING
    ),
    "binding, double and bias": Asked(_bound(BindingFold.DOUBLE, BindingGrain.BIAS), _ENDS, _BIAS),
    "binding, single and bias": Asked(_bound(BindingFold.SINGLE, BindingGrain.BIAS), _ENDS, _BIAS),
    "back": Asked(_back(MiddleSeam.ALLOWED), _ENDS, _BACKS),
    "back without a middle seam": Asked(_back(MiddleSeam.AVOIDED), _ENDS),
    "batting": Asked(
        lambda d: d.batting is not None,
        _ENDS,
        "test_finishing_sizes.py::test_packages_are_those_in_print",
    ),
    "hanging sleeve": Asked(lambda d: d.sleeve is not None, _ENDS),
    "bed by drop": Asked(
        lambda d: d.bed is not None,
        "test_beds.py::test_what_is_proposed_is_never_worse",
        "test_beds.py::test_a_queen_bed_with_a_drop_of_twelve",
    ),
}


def _finished() -> Iterator[Design]:
    """Plain tops with all kinds of finishes."""
    rest = {"batting": Batting(), "sleeve": Sleeve(WATER), "bed": Bed(Mattress.TWIN, F(10))}
    plain = design_of(F(30), F(36), (ENDS_FIRST,))
    middles = (MiddleSeam.ALLOWED, MiddleSeam.AVOIDED) * 2
    kinds = ((fold, grain) for fold in BindingFold for grain in BindingGrain)
    for (fold, grain), middle in zip(kinds, middles, strict=True):
        binding, back = Binding(HEART, fold, grain), Backing(WING, middle_seam=middle)
        yield replace(plain, binding=binding, backing=back, **rest)


def _sashes() -> Iterator[Design]:
    """The runner sashed in all ways."""
    runner = EXAMPLES["runner"]()
    assert isinstance(runner.setting, Setting)
    sashing = runner.setting.sashing
    assert sashing is not None
    for place in SashingPlace:
        for stones in (None, sashing.cornerstones):
            other = replace(sashing, place=place, cornerstones=stones)
            yield replace(runner, setting=Setting(((Cell("star"),),), 2, 2, other))


def _alternating() -> Design:
    """Plain blocks between pieced ones."""
    return design(OnPoint(cells("flag flag/1"), HEART, None, 2, 2, cells("ground")),
                  two_coloured(F(4)))  # fmt: skip


@cache
def _samples() -> tuple[tuple[Design, Publication, Drawing], ...]:
    plain = [*BORDERED.values(), *_finished(), *_sashes(), _alternating()]
    return (
        *((b.design, b.publication, b.drawing) for b in (make() for make in SAMPLES.values())),
        *map(_built, plain),
    )


def _built(design: Design) -> tuple[Design, Publication, Drawing]:
    layouts, problems = lay_out(design)
    assert not problems, problems
    drawing = draw(design, layouts)
    draft, problems = construct(design, layouts, drawing)
    assert not problems, problems
    (publication,) = publish([draft])
    return design, publication, with_mirror_images(drawing, draft.names)


@cache
def _disagreements(index: int) -> tuple[str, ...]:
    return tuple(show_disagreement(d) for d in prove(*_samples()[index][1:]))


@cache
def _unreadable(index: int) -> tuple[str, ...]:
    made = subject(*_samples()[index])
    drawn = ((width, *named) for width in (360, 900) for named in plates(made, width).items())
    return tuple(f"{name} at {width}" for width, name, scene in drawn if overlaps(scene, width))


def _of(name: str) -> list[int]:
    found = [i for i, sample in enumerate(_samples()) if ASKED[name].by(sample[0])]
    assert found
    return found


every_setting = pytest.mark.parametrize("name", ASKED)


@every_setting
def test_both_proofs_agree_on_its_samples(name: str) -> None:
    assert not [d for index in _of(name) for d in _disagreements(index)]


@every_setting
def test_its_drawings_can_be_read(name: str) -> None:
    assert not [d for index in _of(name) for d in _unreadable(index)]


@every_setting
def test_a_pattern_uses_it(name: str) -> None:
    assert any(ASKED[name].by(design) for design in designs())


@every_setting
def test_it_is_tried_at_random_and_checked_against_the_outside(name: str) -> None:
    """The tests that the table names are there."""
    asked = ASKED[name]
    for test in (asked.at_random, asked.outside):
        file, _, function = test.partition("::")
        paths = [path for path in ROOT.glob("tests/*/*.py") if path.name == file]
        texts = [path.read_text("utf-8") for path in paths]
        assert not test or any(f"def {function}(" in text for text in texts), test


def test_both_ways_to_sew_a_back_are_priced() -> None:
    for plain in _finished():
        needs = finish(plain).needs
        backs = [need.backs for need in needs.needs if need.backs is not None]
        assert backs
        for both in backs:
            assert {both.chosen.seams, both.other.seams} == set(Seams)
            assert both.chosen.total <= both.other.total
