"""How much cloth: groups, backs, joined strips and what cannot be cut."""

from dataclasses import replace

import pytest
from cloth_samples import SLUGS, published, small
from quicktions import Fraction

from pieceproof.backs import Seams
from pieceproof.cloth_proof import cloth_faults
from pieceproof.cutting.planner import USUAL_EFFORT
from pieceproof.model import Measure
from pieceproof.requirements import USABLE_WIDTHS, need_for, planning_steps, requirements

F = Fraction
INCH = USABLE_WIDTHS[Measure.INCH][:2]


@pytest.mark.parametrize("slug", SLUGS)
def test_the_repositorys_patterns_have_enough_cloth(slug: str) -> None:
    for design, publication in published(slug):
        found, problems = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
        assert not problems
        assert cloth_faults(design, publication, found) == ()


def test_parts_played_by_one_cloth_are_planned_together() -> None:
    design, publication = small(
        {"ground": [(F(3), F(3), 10, "star")], "wing": [(F(3), F(3), 4, "star")]},
        binding=("edge", F(5, 2), F(100)),
        colourways={
            "one": {"ground": "mist", "wing": "slate", "edge": "slate"},
            "two": {"ground": "mist", "wing": "mist", "edge": "slate"},
        },
    )
    found, _ = requirements(design, publication, INCH)
    groups = [("ground",), ("wing",), ("edge",), ("wing", "edge"), ("ground", "wing")]
    assert [n.fabrics for n in found.needs] == [group for group in groups for _ in INCH]
    together = need_for(found, ("ground", "wing"), F(42))
    assert together.plan.length == 3  # 14 squares of 3 in fill 42 in exactly
    assert [(p.cloth, p.fabrics) for p in found.played if p.colourway == "two"] == [
        ("mist", ("ground", "wing")),
        ("slate", ("edge",)),
    ]


def test_the_usual_effort_is_spent_where_a_pattern_asks_for_no_other() -> None:
    design, _ = small({"ground": [(F(3), F(3), 10, "star")]})
    assert design.planning_effort == 1
    assert planning_steps(design) == USUAL_EFFORT
    assert planning_steps(replace(design, planning_effort=4)) == 4 * USUAL_EFFORT


def test_more_effort_plans_a_pattern_no_worse() -> None:
    """Last Ferry in one boat: six parts from one cloth are proven to take no less."""
    design, publication = published("last-ferry")[0]
    usual, _ = requirements(design, publication, INCH[:1])
    harder = replace(design, planning_effort=8)
    found, problems = requirements(harder, publication, INCH[:1])
    assert not problems
    assert cloth_faults(harder, publication, found) == ()
    plans = [(one.plan, other.plan) for one, other in zip(usual.needs, found.needs, strict=True)]
    assert all(more.length <= plan.length and more.bound >= plan.bound for plan, more in plans)
    assert any(more.proven and not plan.proven for plan, more in plans)


def test_the_back_is_priced_both_ways() -> None:
    design, publication = small({}, backing=("back", F(48), F(56)))
    found, _ = requirements(design, publication, INCH)
    backs = need_for(found, ("back",), F(42)).backs
    assert backs is not None
    assert (backs.chosen.seams, backs.chosen.panels, backs.chosen.total) == (Seams.LEVEL, 2, 96)
    assert (backs.other.seams, backs.other.panels, backs.other.total) == (Seams.UPRIGHT, 2, 112)


def test_a_back_that_fits_in_one_width_has_no_seam() -> None:
    design, publication = small({}, backing=("back", F(65), F(24)))
    found, _ = requirements(design, publication, INCH)
    backs = need_for(found, ("back",), F(42)).backs
    assert backs is not None
    assert (backs.chosen.panels, backs.chosen.total) == (2, 48)
    assert (backs.other.panels, backs.other.total) == (1, 65)


def test_equal_lengths_go_to_fewer_seams() -> None:
    """40 x 80: one length of 80, or two of 40."""
    design, publication = small({}, backing=("back", F(80), F(40)))
    backs = need_for(requirements(design, publication, INCH)[0], ("back",), F(42)).backs
    assert backs is not None
    assert (backs.chosen.panels, backs.other.panels) == (1, 2)
    assert backs.chosen.total == backs.other.total == 80


def test_small_backs_lie_side_by_side() -> None:
    """Four mats of 53 x 41 cm: two side by side on 107 cm, so two lengths of 41 cm."""
    design, publication = small({}, Measure.CENTIMETRE, backing=("back", F(53), F(41)), quantity=4)
    (need,) = requirements(design, publication, [F(107)])[0].needs
    assert need.backs is not None
    assert (need.backs.chosen.abreast, need.backs.chosen.total) == (2, 82)
    assert need.yardage.needed == F(169, 2)  # and 2.5 cm to square the end
    assert (need.metres, need.yards) == (F(85, 100), F(1))


def test_strips_of_the_top_are_joined_and_panels_are_not() -> None:
    lists = {"stage": [(F(3), F(60), 2, "top"), (F(3), F(50), 1, "star")]}
    design, publication = small(lists)
    demand = requirements(design, publication, INCH)[0].needs[0].demand
    assert [(long.letter, long.join) for long in demand.longs] == [("A", "diagonal")]
    assert [want.letter for want in demand.wants] == ["B"]


def test_metres_of_an_inch_pattern_come_from_the_exact_length() -> None:
    """9 1/2 in strip, 1 in and 2 in of room: 12 1/2 in = 31.75 cm, so 35 cm; 3/8 yd is 34.3 cm."""
    design, publication = small({"ground": [(F(19, 2), F(19, 2), 4, "star")]})
    need = requirements(design, publication, INCH)[0].needs[0]
    assert (need.yardage.needed, need.yards, need.metres) == (F(21, 2), F(3, 8), F(35, 100))
    assert need.yardage.room == 3


def test_what_cannot_be_cut_is_a_problem() -> None:
    design, publication = small({"ground": [(F(43), F(50), 1, "star")]})
    found, problems = requirements(design, publication, [F(42)])
    assert found.needs == ()
    assert [(p.code, p.found) for p in problems] == [
        (
            "cannot-be-cut",
            "A: 43 x 50 is larger than the usable width 42 both ways; it must be pieced",
        )
    ]
