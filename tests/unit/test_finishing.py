"""Binding, back, batting and sleeve: what is published, what is refused, what the proofs notice."""

from __future__ import annotations

from dataclasses import replace

import pytest
from change_numbers import changes
from finishing_samples import Finished, design_of, finished_with
from mutate import mutations
from quicktions import Fraction
from whole_path import HEART, WATER, WING

from pieceproof.bench import prove
from pieceproof.cloth_proof import cloth_faults
from pieceproof.model import (
    Backing,
    Batting,
    Binding,
    BindingFold,
    BindingGrain,
    Measure,
    MiddleSeam,
    Sleeve,
)
from pieceproof.published import Package
from pieceproof.requirements import need_for

F = Fraction
PLAIN = design_of(F(39), F(30))
BIAS = Binding(HEART, grain=BindingGrain.BIAS)
ALL = {"binding": BIAS, "backing": Backing(WING), "batting": Batting(), "sleeve": Sleeve(WATER)}


def codes(finished: Finished) -> list[str]:
    return [problem.code for problem in finished.problems]


@pytest.mark.parametrize("measure", list(Measure))
@pytest.mark.parametrize("fold", list(BindingFold))
@pytest.mark.parametrize("grain", list(BindingGrain))
def test_every_binding_is_proved(measure: Measure, fold: BindingFold, grain: BindingGrain) -> None:
    binding = Binding(HEART, fold, grain)
    finished = finished_with(design_of(F(30), F(36), measure=measure), binding=binding)
    assert not finished.problems
    assert not finished.faults()


def test_every_changed_number_of_the_finishing_is_noticed() -> None:
    finished = finished_with(PLAIN, **ALL)
    assert not finished.faults()
    parts = ("binding", "backing", "batting", "sleeve")
    tried = [m for m in mutations(finished.publication) if m.path.startswith(parts)]
    assert {"binding.square", "batting.package.long", "sleeve.shorter"} <= {m.path for m in tried}
    missed = [m for m in tried if not prove(m.publication, finished.drawing)]
    assert not [f"{m.path}: {m.change}" for m in missed]


def test_every_changed_number_of_the_back_is_noticed() -> None:
    back = Backing(WING, seam=F(3, 8), middle_seam=MiddleSeam.AVOIDED)
    finished = finished_with(PLAIN, **{**ALL, "backing": back})
    assert not finished.faults()
    needs = finished.needs
    (index,) = (i for i, n in enumerate(needs.needs) if n.backs and n.usable_width == 40)
    need = needs.needs[index]
    for path, changed in changes("", need.backs):
        others = (*needs.needs[:index], replace(need, backs=changed), *needs.needs[index + 1 :])
        found = cloth_faults(finished.design, finished.publication, replace(needs, needs=others))
        assert found, path


def test_nothing_beyond_the_top_is_nothing() -> None:
    """A length of 0 is what the writer says, not a length left out."""
    finished = finished_with(PLAIN, backing=Backing(WING, F(0)), batting=Batting(F(0)))
    backing, batting = finished.publication.backing, finished.publication.batting
    assert backing is not None
    assert batting is not None
    assert (backing.width, batting.height) == (39, 30)


def test_a_binding_too_narrow_for_its_fold_is_refused() -> None:
    """Sewn at 1/4: folded double it takes 6 x 1/4, folded once 4 x 1/4, and a little more."""
    for fold, least in ((BindingFold.DOUBLE, F(3, 2)), (BindingFold.SINGLE, F(1))):
        narrow = finished_with(PLAIN, binding=Binding(HEART, fold, cut_width=least))
        assert codes(narrow) == ["binding-too-narrow"]
        assert narrow.faults()
        wider = finished_with(PLAIN, binding=Binding(HEART, fold, cut_width=least + F(1, 8)))
        assert not wider.problems
        assert not wider.faults()


def test_a_single_fold_is_cut_an_inch_and_a_quarter() -> None:
    binding = finished_with(PLAIN, binding=Binding(HEART, BindingFold.SINGLE)).publication.binding
    assert binding is not None
    assert binding.cut_width == F(5, 4)


def test_ends_need_something_to_join() -> None:
    assert codes(finished_with(PLAIN, binding=Binding(HEART, extra=F(2)))) == ["binding-too-short"]


def test_a_bias_binding_is_one_square_of_cloth() -> None:
    finished = finished_with(PLAIN, binding=BIAS)
    facts = finished.publication.binding
    assert facts is not None
    assert (facts.length, facts.square) == (
        148,
        22,
    )  # root of 148 x 2 1/2 is 19.2; five whole strips and their seams take 22
    (want,) = need_for(finished.needs, ("heart",), F(42)).demand.wants
    assert (want.letter, want.across, want.along) == ("binding", 22, 22)


def test_a_square_larger_than_the_cloth_is_refused_at_the_binding() -> None:
    large = finished_with(design_of(F(170), F(170)), binding=BIAS)
    assert any(p.found.startswith("binding: ") for p in large.problems if p.code == "cannot-be-cut")


def test_no_seam_runs_down_the_middle_if_that_is_avoided() -> None:
    """47 wide from cloth of 42: two panels, one of them halved; three are the other way."""
    design = design_of(F(39), F(42))
    for middle, halved in ((MiddleSeam.ALLOWED, 0), (MiddleSeam.AVOIDED, 1)):
        finished = finished_with(design, backing=Backing(WING, middle_seam=middle))
        assert not finished.faults()
        backs = need_for(finished.needs, ("wing",), F(42)).backs
        assert backs is not None
        assert (backs.chosen.panels, backs.chosen.halved) == (2, halved)


def test_the_second_seam_of_a_halved_panel_may_ask_for_a_third_panel() -> None:
    """2 x 42 less two seams of 1 in cover 82; 83 takes three panels, whose middle is whole."""
    design = design_of(F(34), F(75))
    finished = finished_with(design, backing=Backing(WING, middle_seam=MiddleSeam.AVOIDED))
    assert not finished.faults()
    backs = need_for(finished.needs, ("wing",), F(42)).backs
    assert backs is not None
    plans = {plan.seams.value: (plan.panels, plan.halved) for plan in (backs.chosen, backs.other)}
    assert plans == {"level": (3, 0), "upright": (1, 0)}


def test_a_back_of_extra_wide_cloth_is_a_bolt_of_its_own() -> None:
    back = Backing(WING, usable_width=F(106))
    design = replace(PLAIN, colourways={"way": replace(PLAIN.colourways["way"], parts=ONE_CLOTH)})
    finished = finished_with(design, backing=back, binding=Binding(HEART))
    assert not finished.problems
    assert not finished.faults()
    assert [p.fabrics for p in finished.needs.played] == [("ground", "heart"), ("wing",)]
    backs = need_for(finished.needs, ("wing",), F(40)).backs
    assert backs is not None
    assert (backs.chosen.width, backs.chosen.panels, backs.chosen.total) == (106, 1, 38)


ONE_CLOTH = dict.fromkeys(PLAIN.colourways["way"].parts, PLAIN.colourways["way"].parts[WING])


def test_nothing_else_is_cut_from_extra_wide_cloth() -> None:
    back = Backing(HEART, usable_width=F(106))
    shared = finished_with(PLAIN, backing=back, binding=Binding(HEART))
    assert codes(shared) == ["wide-backing-shared"]


@pytest.mark.parametrize(
    ("width", "height", "package"),
    [
        (F(37), F(52), Package(F(45), F(60))),
        (F(52), F(37), Package(F(45), F(60))),
        (F(38), F(52), Package(F(72), F(90))),
        (F(84), F(92), Package(F(120), F(120))),
        (F(113), F(92), None),
    ],
)
def test_the_smallest_package_that_covers(width: F, height: F, package: Package | None) -> None:
    """With 4 in all round: 45 x 60 holds 37 x 52 both ways, and 38 x 52 no longer."""
    batting = finished_with(design_of(width, height), batting=Batting()).publication.batting
    assert batting is not None
    assert batting.package == package


def test_a_package_for_a_set_holds_all_of_it() -> None:
    """Two mats of 12 x 18 with 4 in all round, 20 x 26: both in 45 x 60, which holds four."""
    for quantity, package in ((4, Package(F(45), F(60))), (5, Package(F(72), F(90)))):
        mats = finished_with(design_of(F(12), F(18)), quantity=quantity, batting=Batting())
        assert not mats.faults()
        assert mats.publication.batting is not None
        assert mats.publication.batting.package == package


def test_a_sleeve_is_cut_and_joined_from_strips() -> None:
    """8 1/2 in for 4 in, 2 in less than the top is wide (common practice)."""
    finished = finished_with(design_of(F(39), F(20)), sleeve=Sleeve(WATER))
    assert not finished.faults()
    sleeve = finished.publication.sleeve
    assert sleeve is not None
    assert (sleeve.cut_width, sleeve.length) == (F(17, 2), 37)
    wider = finished_with(design_of(F(60), F(20)), sleeve=Sleeve(WATER))
    assert not wider.faults()
    (run,) = need_for(wider.needs, ("water",), F(42)).plan.joined
    assert (run.letter, run.length, run.strips) == ("sleeve", 58, 2)


def test_a_sleeve_longer_than_nothing() -> None:
    small = finished_with(design_of(F(6), F(6)), sleeve=Sleeve(WATER, shorter=F(6)))
    assert "sleeve-too-short" in codes(small)
