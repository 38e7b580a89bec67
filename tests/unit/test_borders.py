"""Borders: every number of them is held by the bench, and what does not fit says how it would."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from bites import missed
from finishing_samples import (
    BLADE,
    BORDERED,
    BUTTED,
    GOOSE,
    MITRED,
    OF_BLADES,
    OF_GEESE,
    design_of,
    finish,
)
from judge import finished_makes, shows
from mutate import mutations
from quicktions import Fraction
from whole_path import WATER

from pieceproof.bench import prove
from pieceproof.bench.error import outcomes, yardstick
from pieceproof.construct import construct
from pieceproof.geometry import draw
from pieceproof.layout import lay_out
from pieceproof.lengths import parse_length
from pieceproof.model import AnyBorder, Cell, Design, Measure, Sashing, Setting
from pieceproof.problems import Problem
from pieceproof.published import MakeKind
from pieceproof.steps import JoinMitred

F = Fraction


@pytest.mark.parametrize("name", BORDERED)
def test_borders_pass_both_proofs(name: str) -> None:
    finished = finish(BORDERED[name])
    assert not finished.problems
    assert not finished.faults()


@pytest.mark.parametrize("name", BORDERED)
def test_an_outside_library_sews_the_same(name: str) -> None:
    finished = finish(BORDERED[name])
    triangles = [m.name for m in finished.publication.makes if m.kind is MakeKind.TRIANGLE]
    for make, things in finished_makes(finished.publication).items():
        assert make in triangles or all(
            shows(thing, finished.drawing.pictures[make]) for thing in things
        ), make


@pytest.mark.parametrize("name", ["mitred", "geese", "all kinds"])
def test_every_changed_number_is_noticed(name: str) -> None:
    finished = finish(BORDERED[name])
    publication = finished.publication
    changes = [m for m in mutations(publication) if m.path.startswith(("pieces", "makes"))]
    assert not missed(publication, finished.drawing, changes[:: 1 + len(changes) // 300])


def test_strips_one_step_too_short_for_the_mitre_are_noticed() -> None:
    """Shorter pieces and a shorter reach agree with each other, not with the corners."""
    design = design_of(F(12), F(9), (replace(MITRED, extra=F(3, 4)),))
    finished = finish(design)
    assert not finished.faults()
    top = finished.publication.makes[-1]
    step = F(1, 8)
    steps = tuple(
        replace(s, beyond_sides=s.beyond_sides - step, beyond_ends=s.beyond_ends - step)
        if isinstance(s, JoinMitred)
        else s
        for s in top.steps
    )
    pieces = tuple(
        replace(p, long=p.long - 2 * step, needed_long=p.needed_long - 2 * step)
        if p.fabric == "water"
        else p
        for p in finished.publication.pieces
    )
    makes = (*finished.publication.makes[:-1], replace(top, steps=steps))
    shorter = replace(finished.publication, pieces=pieces, makes=makes)
    (found,) = prove(shorter, finished.drawing)
    assert "for its mitres and their seam allowances" in found.expected


def test_a_mitred_strip_is_the_inner_side_two_widths_two_seams_and_the_extra() -> None:
    """As the trade states it, with the usual 2 in more: 12 + 2 x 3 + 1/2 + 2."""
    pieces = finish(BORDERED["mitred"]).publication.pieces
    assert sorted(p.long for p in pieces if p.fabric == "water") == [F(35, 2), F(41, 2)]


def test_a_seam_that_is_off_is_followed_round_mitred_corners() -> None:
    """Four seams across: of two borders 1/16 too wide, the top gets 4 x 2 x 1/16 smaller."""
    publication = finish(BORDERED["mitred of two widths"]).publication
    (out,) = outcomes(yardstick(publication), (F(1, 16),))
    assert not out.not_followed
    top = out.size("top")
    assert (top.width, top.height) == (publication.width,) * 2


def problems_of(
    borders: tuple[AnyBorder, ...], width: Fraction, height: Fraction, measure: Measure
) -> tuple[Problem, ...]:
    units = {"blade": BLADE, "goose": GOOSE}
    design = design_of(width, height, borders, measure, units)
    layouts, problems = lay_out(design)
    return problems or construct(design, layouts, draw(design, layouts))[1]


def test_units_that_do_not_fit_say_by_how_much_and_what_would() -> None:
    (problem,) = problems_of((OF_GEESE,), F(20), F(14), Measure.INCH)
    assert problem.code == "border-does-not-fit"
    assert problem.found == (
        "border 1, where inside it the sides are 14 (4 of its units are 2 too short, 5 are 1 too "
        "long) and the top and bottom are 20 (6 of its units are 2 too short, 7 are 1 too long)"
    )
    assert problem.remedy == (
        "put a border 1/2 wide just inside it, for 7 along the top and 5 along the side; or make "
        "its units 2 long, for 10 along the top and 7 along the side; or change what lies inside "
        "it to 21 x 15, for 7 along the top and 5 along the side"
    )


@pytest.mark.parametrize(("width", "height"), [(F(20), F(14)), (F(41, 2), F(29, 2))])
def test_the_coping_border_that_is_proposed_makes_the_units_fit(width: F, height: F) -> None:
    (problem,) = problems_of((OF_GEESE,), width, height, Measure.INCH)
    coping = F(problem.remedy.split()[3])
    design = design_of(
        width, height, (replace(BUTTED, width=coping), OF_GEESE), units={"goose": GOOSE}
    )
    assert not finish(design).faults()


def test_a_border_that_is_there_is_widened_instead() -> None:
    (problem,) = problems_of((BUTTED, OF_BLADES), F(16), F(10), Measure.INCH)
    assert problem.remedy.startswith("widen border 1 to 2 1/2, for 7 along")


def test_sides_that_no_coping_border_mends() -> None:
    (problem,) = problems_of((OF_GEESE,), F(20), F(15), Measure.INCH)
    assert problem.remedy == (
        "make its units 2 1/2 long, for 8 along the top and 6 along the side; or make its units 5 "
        "long, for 4 along the top and 3 along the side; or change what lies inside it to 21 x 15, "
        "for 7 along the top and 5 along the side"
    )


def squares(block: F, across: int, down: int, sash: F | None) -> Design:
    """Blocks of one size in a border of geese 3 long."""
    plain = design_of(block, block, (OF_GEESE,), units={"goose": GOOSE})
    sashing = Sashing(WATER, sash) if sash else None
    return replace(plain, setting=Setting(((Cell("middle"),),), across, down, sashing))


@pytest.mark.parametrize("sash", [None, F(1)])
@pytest.mark.parametrize(("across", "down"), [(4, 5), (2, 7), (4, 4), (1, 2)])
def test_blocks_that_are_proposed_make_the_units_fit(across: int, down: int, sash: F) -> None:
    """Geese 3 long around blocks of 4: what is said of the blocks is tried out."""
    (problem,) = lay_out(squares(F(4), across, down, sash))[1]
    block = re.search(r"make the blocks ([\d /]+) wide", problem.remedy)
    count = re.search(r"set (\d+) x (\d+) blocks", problem.remedy)
    tried = []
    if block:
        width = parse_length(block[1])
        assert width is not None
        tried.append(squares(width, across, down, sash))
    if count:
        tried.append(squares(F(4), int(count[1]), int(count[2]), sash))
    assert tried
    assert not [p for design in tried for p in lay_out(design)[1]]


def test_a_mitre_needs_its_own_seam_allowances() -> None:
    """2 s root 2 = 0.707 in, so 3/4 in is the least and 5/8 in too little."""
    assert not problems_of((replace(MITRED, extra=F(3, 4)),), F(12), F(9), Measure.INCH)
    (problem,) = problems_of((replace(MITRED, extra=F(5, 8)),), F(12), F(9), Measure.INCH)
    assert (problem.code, problem.expected[:12]) == ("mitre-too-short", "at least 3/4")


def test_corners_are_as_wide_as_the_border() -> None:
    problems = problems_of((replace(OF_GEESE, corners=Cell("blade")),), F(12), F(9), Measure.INCH)
    assert [p.code for p in problems] == ["border-unit-size"]


def test_a_fabric_has_no_length_along_a_border() -> None:
    problems = problems_of((replace(OF_GEESE, units=(Cell("water"),)),), F(12), F(9), Measure.INCH)
    assert [p.code for p in problems] == ["fabric-in-border"]
