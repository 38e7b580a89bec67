"""How many cuts a plan takes, counted by hand on paper."""

from dataclasses import fields, replace

import pytest
from cloth_samples import F, published, small, with_prints

from pieceproof.backs import BackPlan, Seams
from pieceproof.cloth_proof import cloth_faults
from pieceproof.cut_words import cuts_sentence
from pieceproof.cuts import Cuts, cuts_of
from pieceproof.cutting.check import cuts_made
from pieceproof.cutting.plan import Cut, Joined, Plan, Segment, Strip
from pieceproof.kits.passes import work
from pieceproof.model import LongStrips, StripCut, StripJoin
from pieceproof.published import BindingFacts, Piece, Template
from pieceproof.requirements import need_for, requirements
from pieceproof.template_cuts import cuts_around
from pieceproof.template_proof import blade_passes

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


NONE = Cuts(**{field.name: 0 for field in fields(Cuts)})
"""No cut of any kind."""
_, SAMPLE = small({"a": [(F(3), F(4), 120, "top")]})
NOTHING = replace(PLAN, strips=(), length=F(0), bound=F(0))


def test_cuts_by_kind() -> None:
    """Strips 17; ends of the 12 that are cut up; 10 x 12 + 2 x 9 across; 2 x 10 x 2 in segments."""
    made = cuts_of(SAMPLE, ("a",), PLAN, None, ())
    assert made == replace(NONE, squaring=1, strips=17, ends=12, across=138, trims=40)
    assert made.total == 1 + 17 + 12 + 138 + 40


def test_kits_pass_as_often_where_nothing_is_stacked() -> None:
    """In stacks of one layer every pass of the blade is one cut of the plan."""
    made = cuts_of(SAMPLE, ("a",), PLAN, None, ())
    assert work(PLAN, layers=1, squared=1).passes == made.total


def test_the_checker_makes_as_many() -> None:
    assert cuts_made(PLAN) == {"strips": 17, "ends": 12, "across": 138, "trims": 40}


def test_words_name_only_cuts_that_there_are() -> None:
    assert cuts_sentence(replace(NONE, squaring=1, strips=3, ends=3, across=40)) == (
        "47 cuts: 1 to square the cloth, 3 for strips, 3 to true an end of each "
        "and 40 across strips."
    )
    assert cuts_sentence(replace(NONE, squaring=1)) == "1 cut: 1 to square the cloth."


@pytest.mark.parametrize(
    ("join", "last", "ends", "joins"),
    [
        # Four strips of 40: three joins. Straight, six ends meet; one more is trued to cut from.
        ("straight", 40, 7, 0),
        # The last part comes from another strip and has two true ends: one meets, one is cut from.
        ("straight", 10, 5, 0),
        # On the diagonal the ends that meet are trimmed when they are sewn.
        ("diagonal", 40, 1, 3),
        ("diagonal", 10, 0, 3),
    ],
)
def test_what_is_joined_is_cut_by_hand(join: str, last: int, ends: int, joins: int) -> None:
    """Two lengths of 60 from the run: one cut between them and one where the run is longer."""
    loss = F(1, 2) if join == "straight" else F(2)
    run = 3 * 40 + last - 3 * loss
    long = Joined("A", 4, join, loss, run, F(50), 2)
    made = cuts_of(SAMPLE, ("a",), replace(NOTHING, joined=(long,)), None, ())
    assert made == replace(NONE, squaring=1, join_ends=ends, joins=joins, runs=2)
    exact = replace(long, length=run / 2)
    assert cuts_of(SAMPLE, ("a",), replace(NOTHING, joined=(exact,)), None, ()).runs == 1
    binding = replace(long, letter="binding", count=3)
    made = cuts_of(SAMPLE, ("a",), replace(NOTHING, joined=(binding,)), None, ())
    assert made.runs == 2
    assert made.join_ends == {7: 6, 1: 0}.get(ends, ends)


@pytest.mark.parametrize(
    ("tops", "panels", "abreast", "lengths", "halved", "selvages", "backs"),
    [
        (1, 1, 1, 1, 0, 0, 0),
        # Five backs, two side by side: the third length holds one.
        (5, 1, 2, 3, 0, 0, 2),
        (1, 2, 1, 2, 0, 4, 0),
        (2, 2, 1, 4, 2 // 2, 8, 2),
    ],
)
def test_a_back_is_cut_by_hand(
    tops: int, panels: int, abreast: int, lengths: int, halved: int, selvages: int, backs: int
) -> None:
    back = BackPlan(
        Seams.UPRIGHT, panels, abreast, lengths, F(60), F(1, 2), 60 * F(lengths), F(42), halved
    )
    several = replace(SAMPLE, quantity=tops)
    made = cuts_of(several, ("a",), NOTHING, back, ())
    assert made == replace(NONE, squaring=1, lengths=lengths, selvages=selvages, backs=backs)


def test_a_square_is_cut_once_across_and_once_round_into_a_bias_strip() -> None:
    binding = BindingFacts("a", F(5, 2), F(10), F(100), grain="bias", square=F(20))
    two = replace(SAMPLE, binding=binding, quantity=2)
    assert cuts_of(two, ("a",), NOTHING, None, ()).bias == 4
    assert cuts_of(two, ("b",), NOTHING, None, ()).bias == 0


TRIANGLE = Template(
    ((F(0), F(0)), (F(4), F(4)), (F(0), F(4))), ((F(0), F(0)), (F(4), F(4)), (F(0), F(4))), F(0)
)
"""Half a square, its edge raw: two sides lie on the edges of the square it is cut from."""


def _piece(template: Template, short: int, long: int) -> Piece:
    return Piece("A", "a", F(short), F(long), F(short), F(long), 10, ("top",), template)


@pytest.mark.parametrize(
    ("short", "long", "cuts"),
    [
        (4, 4, 1),  # the diagonal
        (4, 5, 2),  # and one below it, where the rectangle is longer
    ],
)
def test_a_half_square_is_cut_by_hand(short: int, long: int, cuts: int) -> None:
    piece = _piece(TRIANGLE, short, long)
    assert (cuts_around(piece), blade_passes(piece, TRIANGLE)) == (cuts, cuts)
    publication = replace(SAMPLE, pieces=(piece,))
    assert cuts_of(publication, ("a",), NOTHING, None, ()).templates == 10 * cuts


# Counted on the printed templates: petals and eyes are hexagons with one side on the edge of their
# rectangle (the opposite one lies at an irrational place); of banks and river only the curve is not
# on the edges of a square. The stars' pieces have five corners, four and six; of the five, one side
# is on an edge, of the four, two, and one of the six.
@pytest.mark.parametrize(
    ("slug", "cuts"),
    [("lock-garden", "55"), ("oxbow", "11111"), ("pilot-star", "4255")],
)
def test_templates_of_patterns(slug: str, cuts: str) -> None:
    for _, publication in published(slug):
        shaped = [(p, p.template) for p in publication.pieces if p.template is not None]
        assert "".join(str(cuts_around(piece)) for piece, _ in shaped) == cuts
        assert "".join(str(blade_passes(piece, shape)) for piece, shape in shaped) == cuts


@pytest.mark.parametrize("join", [StripJoin.STRAIGHT, StripJoin.DIAGONAL])
@pytest.mark.parametrize("backing", [(F(50), F(60)), (F(18), F(24)), (F(100), F(130))])
def test_both_sides_count_alike(join: StripJoin, backing: tuple[F, F]) -> None:
    """Sets of tops with joined borders, bindings and backs of one panel and more."""
    design, publication = small(
        {"a": [(F(3), F(4), 120, "unit")], "b": [(F(4), F(62), 3, "top"), (F(3), F(90), 2, "top")]},
        binding=("a", F(5, 2), F(130)), backing=("b", *backing), quantity=3,
    )  # fmt: skip
    design = replace(design, long_strips=LongStrips(StripCut.CROSSWISE, join))
    found, problems = requirements(design, publication, [F(42), F(40)])
    assert problems == ()
    assert cloth_faults(design, publication, found) == ()


@pytest.mark.parametrize("kind", [field.name for field in fields(Cuts)])
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
