"""How many cuts a plan takes, counted by hand on paper."""

from dataclasses import replace

import pytest
from cloth_samples import F, published, with_prints

from pieceproof.cloth_proof import cloth_faults
from pieceproof.cut_words import cuts_sentence
from pieceproof.cutting.check import cuts_made
from pieceproof.cutting.cuts import Cuts, cuts_of
from pieceproof.cutting.plan import Cut, Plan, Segment, Strip
from pieceproof.requirements import need_for, requirements

PLAN = Plan(
    F(40), F(1),
    (
        Strip(F(4), 10, (Segment(F(3), 12, (Cut("A", 1, False, F(3), F(4)),)),)),
        Strip(F(9), 2, (Segment(F(4), 10, (Cut("B", 2, False, F(4), F(4)),)),)),
        Strip(F(2), 5, (Segment(F(40), 1, (Cut("C", 1, False, F(40), F(2)),)),)),
    ),
    (), F(68), F(68), True,
)  # fmt: skip
"""Twelve 3 in pieces leave 4 in of a strip; ten 4 in segments of two pieces and 1 in use it up."""


def test_cuts_by_kind() -> None:
    """Strips 17; ends of the 12 that are cut up; 10 x 12 + 2 x 9 across; 2 x 10 x 2 in segments."""
    assert cuts_of(PLAN, 2, 8) == Cuts(1, 2, 8, 17, 12, 138, 40)
    assert cuts_of(PLAN, 2, 8).total == 1 + 2 + 8 + 17 + 12 + 138 + 40


def test_the_checker_makes_as_many() -> None:
    assert cuts_made(PLAN) == {"strips": 17, "ends": 12, "across": 138, "trims": 40}


def test_words_name_only_cuts_that_there_are() -> None:
    assert cuts_sentence(Cuts(1, 0, 0, 3, 3, 40, 0)) == (
        "47 cuts: 1 to square the cloth, 3 for strips, 3 to true an end of each "
        "and 40 across strips."
    )
    assert cuts_sentence(Cuts(1, 0, 0, 0, 0, 0, 0)) == "1 cut: 1 to square the cloth."


@pytest.mark.parametrize(
    "kind", ["squaring", "lengths", "around", "strips", "ends", "across", "trims"]
)
def test_a_cut_too_many_is_noticed(kind: str) -> None:
    design, publication = with_prints(published("heron-landing")[1])
    found, problems = requirements(design, publication, [F(42)])
    assert (problems, cloth_faults(design, publication, found)) == ((), ())
    need = need_for(found, ("ground",), F(42))
    wrong = replace(need, cuts=replace(need.cuts, **{kind: getattr(need.cuts, kind) + 1}))
    needs = tuple(wrong if one is need else one for one in found.needs)
    faults = cloth_faults(design, publication, replace(found, needs=needs))
    assert len(faults) == 1
    assert "the cuts made are" in faults[0]
