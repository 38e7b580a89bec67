"""Directional prints, motifs, long strips, narrow cloth and precuts, worked out on paper."""

from dataclasses import replace

import pytest
from cloth_samples import Sized, published, small, with_prints
from quicktions import Fraction

from pieceproof.cloth_proof import cloth_faults
from pieceproof.facts import called
from pieceproof.fussy import fussy_cut
from pieceproof.model import LongStrips, Measure, Motif, Print, StripCut, StripJoin
from pieceproof.precuts import from_precuts, precut_faults
from pieceproof.print_words import print_lines
from pieceproof.requirements import Need, need_for, requirements, way_of
from pieceproof.standing import upright_shares

F = Fraction


def need(sized: Sized, *fabrics: str, width: int = 42) -> Need:
    found, problems = requirements(*sized, [F(width)])
    assert problems == ()
    assert cloth_faults(*sized, found) == ()
    return need_for(found, fabrics, F(width))


def test_a_star_needs_its_points_in_two_directions() -> None:
    """Four points round each of five stars: above and below they lie, at the sides they stand."""
    cut = need(with_prints(published("heron-landing")[1]), "ground").demand.wants
    lies = {want.letter: (want.across, want.along, want.count, want.turnable) for want in cut}
    assert lies["A upright"] == (3, F(9, 2), 10, False)
    assert lies["A lying"] == (F(9, 2), 3, 10, False)
    assert lies["B"] == (3, 3, 20, True)


def test_shares_of_an_asymmetric_row() -> None:
    """Five stars stand between six sashes and lie between five above and five below."""
    shares = upright_shares(published("heron-landing")[1][1])
    assert (shares["E"], shares["G"], shares["H"]) == (F(6, 16), 0, 1)


def test_a_directional_border_stands_at_the_sides() -> None:
    demand = need(with_prints(published("heron-landing")[1]), "water").demand
    assert [(long.letter, long.way) for long in demand.longs] == [("G", "crosswise")]
    assert [(want.letter, want.across, want.along) for want in demand.wants] == [("H", 3, 12)]


def test_the_proof_notices_a_print_that_lies_down() -> None:
    sized = with_prints(published("heron-landing")[1])
    found, _ = requirements(*published("heron-landing")[1], [F(42)])
    faults = cloth_faults(*sized, found)
    assert any("A: may be turned, though its print runs one way" in fault for fault in faults)


def test_long_strips_are_priced_each_way() -> None:
    """Two of 3 x 58 and two of 3 x 12. Across: three strips for the run, one for the short ones,
    12 in; along the selvage 58 in, the short ones beside them; 1 in is for squaring.
    """
    border = need(published("heron-landing")[1], "water")
    found = {way_of(n): n.yardage.needed for n in (border, *border.others)}
    assert found == {
        "crosswise, diagonal joins": 13,
        "crosswise, straight joins": 13,
        "lengthwise": 59,
    }


@pytest.mark.parametrize(
    ("cut", "join", "words", "run"),
    [
        (StripCut.LENGTHWISE, StripJoin.DIAGONAL, "lengthwise", None),
        # 2 x 58 in out of three strips that lose 1/2 in at each of two joins.
        (StripCut.CROSSWISE, StripJoin.STRAIGHT, "crosswise, straight joins", F(116)),
    ],
)
def test_the_writer_may_fix_the_way(
    cut: StripCut, join: StripJoin, words: str, run: Fraction | None
) -> None:
    design, publication = published("heron-landing")[1]
    fixed = replace(design, long_strips=LongStrips(cut, join))
    border = need((fixed, publication), "water")
    assert way_of(border) == words
    assert [joined.run for joined in border.plan.joined] == ([] if run is None else [run])


@pytest.mark.parametrize(
    ("size", "count", "repeat", "abreast", "rows", "length"),
    [
        # 37 1/2 in for middles hold nine motifs 4 in apart for certain; pieces of 4 1/2 in use
        # every second one: five. One row: a repeat and a piece.
        ((F(9, 2), F(9, 2)), 5, (4, 6), 5, 1, F(21, 2)),
        ((F(9, 2), F(9, 2)), 12, (4, 6), 5, 3, F(45, 2)),
        # 6 in squares on a 6 in repeat: 36 / 6 = 6 abreast, 2 rows: 6 + 6 + 6.
        ((F(6), F(6)), 12, (6, 6), 6, 2, F(18)),
    ],
)
def test_motifs_counted_on_paper(
    size: tuple[Fraction, Fraction],
    count: int,
    repeat: tuple[int, int],
    abreast: int,
    rows: int,
    length: Fraction,
) -> None:
    motif = Motif(F(repeat[0]), F(repeat[1]))
    cut = fussy_cut("A", size, count, motif, F(42))
    assert cut is not None
    assert (cut.abreast, cut.rows, cut.length) == (abreast, rows, length)


def test_motifs_are_bought_with_the_cloth() -> None:
    """One row of 10 1/2 in, 1 in to square, nothing else from this cloth: 11 1/2 in, 3/8 yd."""
    heart = need(with_prints(published("heron-landing")[1]), "heart")
    assert (heart.yardage.needed, heart.yards) == (F(23, 2), F(3, 8))
    assert heart.narrowest == F(9, 2) + 4 * 8 + 4


def test_a_repeat_wider_than_the_cloth_is_a_problem() -> None:
    design, publication = with_prints(published("heron-landing")[1])
    wide = replace(design.fabrics["heart"], motif=Motif(F(40), F(6)))
    fabrics = {**design.fabrics, "heart": wide}
    _, problems = requirements(replace(design, fabrics=fabrics), publication, [F(42)])
    assert {problem.code for problem in problems} == {"cannot-be-cut"}
    assert "no whole motif" in problems[0].found


@pytest.mark.parametrize(("squares", "narrowest"), [(14, 42), (13, 39), (28, 42), (27, 42)])
def test_how_narrow_the_cloth_may_be(squares: int, narrowest: int) -> None:
    """Strips of 3 in squares."""
    sized = small({"ground": [(F(3), F(3), squares, "star")]})
    assert need(sized, "ground").narrowest == narrowest


def test_joined_strips_need_less_than_the_whole_width() -> None:
    """2 x 58 from three strips with joins of 3 in: 116 + 6 less the last part of 38: 42 each."""
    border = need(published("heron-landing")[1], "water")
    assert border.narrowest == 42


def test_narrow_pieces_longer_than_a_ruler_lie_across() -> None:
    lists = {"ground": [(F(3), F(40), 4, "star"), (F(3), F(20), 4, "star")]}
    wants = need(small(lists), "ground").demand.wants
    assert [(want.across, want.turnable) for want in wants] == [(40, False), (3, True)]


def test_parts_from_precut_cloth() -> None:
    """Five 4 1/2 in squares: one to a 5 in square, four to a 10 in square, 8 to a fat eighth."""
    found, _ = requirements(*published("heron-landing")[1], [F(42)])
    precuts = from_precuts(Measure.INCH, found)
    counts = {p.name: len(p.cut) for p in precuts if p.fabric == "heart"}
    assert counts == {
        "fat quarters": 1,
        "fat eighths": 1,
        "half-yard cuts": 1,
        '10" squares': 2,
        '5" squares': 5,
    }
    assert [fault for p in precuts for fault in precut_faults(p)] == []
    assert not [p for p in precuts if p.fabric in ("edge", "back", "water")]


def test_prints_are_told_with_how_their_pieces_stand() -> None:
    design, publication = with_prints(published("heron-landing")[1])
    lines = dict(print_lines(design, publication, called(design)))
    assert lines["cloth for background"] == "a print that runs one way, along the selvage"
    motif = 'a print with a motif every 4" across and 6" along'
    assert lines["cloth for star centres"] == motif
    assert lines["piece A, background, stands"] == "10 upright and 10 lying"
    assert lines["piece B, background, stands"] == "any way up: a square"
    assert lines["piece G, border, stands"] == "2 lying"
    assert lines["piece H, border, stands"] == "2 upright"
    assert not list(print_lines(*published("heron-landing")[1], called(design)))


def test_a_piece_that_stands_askew_is_told_with_what_turns_it() -> None:
    """On point, every piece of a block is turned by an eighth once the rows are joined."""
    design, publication = published("riding-lights")[0]
    runs = {n: replace(f, print=Print.DIRECTIONAL) for n, f in design.fabrics.items()}
    lines = dict(print_lines(replace(design, fabrics=runs), publication, called(design)))
    stands = {key: words for key, words in lines.items() if key.endswith(", stands")}
    assert "any way up: askew in quilt centre" in stands.values()
    assert not any("upright" in stands[key] for key in stands if "star" in key)
