"""Settings against published tables and counts. Sources are named at each check.

HOHN: M. Hohn, charts and setting triangles, 2002, quilterscache.com.
TANI: on-point cutting chart, lukas.is-a-geek.org/tani/chart.htm.
MOON: Moonlight Quilters (guild), on-point tip, moonlightquilters.org.
SUE: sashing counts, 2009, susanintexas.blogspot.com.
DEL: sizes page, delawarequilts.com/MyQuilts/Sizes.html.
SLIDE: school slides on quilt yardage, fr.slideserve.com.
ANN: border lengths, anniesattic.com/determining-border-lengths.
DBAY: handout on point, docsbay.net/number-of-squares-from-a-fat-quarter.
"""

from __future__ import annotations

import pytest
from settings_samples import (
    GROUND,
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

from pieceproof.lengths import parse_length
from pieceproof.model import (
    AnySetting,
    Border,
    Cell,
    CopingRound,
    Medallion,
    OnPoint,
    PlainRound,
    Sashing,
    SashingPlace,
    Setting,
    Size,
)
from pieceproof.on_point import lay_on_point
from pieceproof.published import Piece

ON_POINT_SQUARES = {
    4: ("7", "3 3/4"),  # HOHN
    6: ("9 3/4", "5 1/8"),  # HOHN, TANI, MOON, DBAY
    8: ("12 5/8", "6 5/8"),  # HOHN, TANI
    9: ("14", "7 1/4"),  # HOHN, TANI
    11: ("16 7/8", "8 3/4"),  # TANI
    13: ("19 3/4", "10 1/8"),  # TANI
    14: ("21 1/8", "10 7/8"),  # HOHN, TANI
    16: ("24", "12 1/4"),  # HOHN, TANI print 23 7/8, which 1.414 for the root of 2 gives
}
PRINTED_WITH_A_SHORT_ROOT = {16: F(191, 8)}


def squares_without_float(block: int) -> tuple[F, F]:
    """Squares for one block whose setting ends at its tips, as the tables have it."""
    tips = block * F(665857, 470832)  # root 2 to twelve places, a thread too large
    exact = lay_on_point(
        OnPoint(cells("blade"), GROUND, trim_to=Size(tips, tips)), F(block), F(1, 4), F(1, 8)
    )
    return exact.sides.square, exact.corners.square


@pytest.mark.parametrize("block", ON_POINT_SQUARES)
def test_squares_for_setting_triangles(block: int) -> None:
    side, corner = (parse_length(text) for text in ON_POINT_SQUARES[block])
    assert squares_without_float(block) == (side, corner)
    assert abs(side - PRINTED_WITH_A_SHORT_ROOT.get(block, side)) <= F(1, 8)


def test_the_published_squares_of_a_whole_quilt() -> None:
    """16 in blocks, three by three: 24 (HOHN, TANI, see above), and 12 1/4 or a step more."""
    made = build(design(OnPoint(cells("blade"), GROUND, across=3, down=3), {"blade": blade(F(16))}))
    assert (made.cut("side triangle"), made.cut("corner triangle")) == (F(24), F(99, 8))


def test_squares_cut_oversize() -> None:
    """[40] APQ (magazine, allpeoplequilt.com, twinkle-twinkle) cuts 5 3/4 and 3 1/4 in for 3 in
    blocks, where 5 1/2 and 3 are the least: 1/4 in to trim. Ours are the least; a setting that
    floats by 1/8 in takes the printed ones."""
    assert squares_without_float(3) == (F(11, 2), F(3))
    setting = OnPoint(cells("blade"), GROUND, across=2, down=2, float=F(1, 8))
    floating = lay_on_point(setting, F(3), F(1, 4), F(1, 8))
    assert (floating.sides.square, floating.corners.square) == (F(23, 4), F(13, 4))


def test_no_square_is_smaller_than_the_table_or_more_than_a_step_larger() -> None:
    """Trimmed to the ruler's next size the setting may need one step more than the tables."""
    for block, texts in ON_POINT_SQUARES.items():
        side, corner = (parse_length(text) for text in texts)
        for count in range(1, 9):
            setting = OnPoint(cells("blade"), GROUND, across=count, down=count)
            laid = lay_on_point(setting, F(block), F(1, 4), F(1, 8))
            assert laid.sides.square - side in (0, F(1, 8))
            assert laid.corners.square - corner in (0, F(1, 8))


@pytest.mark.parametrize(("across", "down"), [(1, 1), (2, 1), (3, 4), (5, 2)])
def test_counts_on_point(across: int, down: int) -> None:
    """2 (r + c - 2) side triangles, 4 corners, m n + (m - 1) (n - 1) blocks: common practice."""
    made = build(
        design(OnPoint(cells("blade"), GROUND, across=across, down=down), {"blade": blade(F(6))})
    )
    assert made.wanted("side triangle") == 2 * (across + down - 2)
    assert made.wanted("corner triangle") == 4
    assert made.wanted("blade") == across * down + (across - 1) * (down - 1)


def sashed(across: int, down: int, size: F, wide: F, place: SashingPlace) -> Built:
    sashing = Sashing(WING, wide, WATER, place)
    setting = Setting(cells("block"), across, down, sashing)
    return build(design(setting, {"block": plain(size, size)}))


def pieces_of(made: Built, fabric: str) -> list[Piece]:
    return [piece for piece in made.publication.pieces if piece.fabric == fabric]


def test_sashing_all_round_four_by_five() -> None:
    """30 cornerstones, 49 sashes (SUE)."""
    made = sashed(4, 5, F(12), F(3), SashingPlace.AROUND)
    assert sum(piece.count for piece in pieces_of(made, "water")) == 30
    assert sum(piece.count for piece in pieces_of(made, "wing")) == 49


@pytest.mark.parametrize(
    ("place", "width", "height"),
    [(SashingPlace.BETWEEN, 72, 87), (SashingPlace.AROUND, 78, 93)],
)
def test_sashed_size_of_five_by_six(place: SashingPlace, width: int, height: int) -> None:
    """5 x 6 blocks of 12 with sashes of 3: 72 x 87, sashed all round 78 x 93 (DEL)."""
    made = sashed(5, 6, F(12), F(3), place)
    assert (made.publication.width, made.publication.height) == (width, height)


@pytest.mark.parametrize("as_round", [False, True])
def test_a_border_and_a_plain_round_add_alike(as_round: bool) -> None:
    """70 x 86 and strips cut 6 1/2: 82 x 98, strips of 2 w + 2 l + 4 b (SLIDE, ANN).

    SLIDE counts 338 with the border's cut width 6 1/2; finished it is 336, and eight seam
    allowances of 1/4 go with it.
    """
    setting: AnySetting = Setting(cells("block"))
    borders: tuple[Border, ...] = (Border(WING, F(6)),)
    if as_round:
        setting, borders = Medallion(Cell("block"), (PlainRound(WING, F(6)),)), ()
    made = build(design(setting, {"block": plain(F(70), F(86))}, borders=borders))
    assert (made.publication.width, made.publication.height) == (82, 98)
    strips = pieces_of(made, "wing")
    assert {piece.short for piece in strips} == {F(13, 2)}
    assert sum(piece.long * piece.count for piece in strips) == 2 * 70 + 2 * 86 + 4 * 6 + 8 * F(
        1, 4
    )
    assert max(piece.long for piece in strips) == 86 + F(1, 2)
    assert min(piece.long for piece in strips) == 70 + 2 * 6 + F(1, 2)


def test_coping_strips() -> None:
    """(target - current) / 2 and two seam allowances: common practice."""
    rounds = (CopingRound(WING, Size(F(24), F(20))),)
    made = build(design(Medallion(Cell("block"), rounds), {"block": plain(F(21), F(18))}))
    sides, ends = sorted(pieces_of(made, "wing"), key=lambda piece: piece.long)
    assert (sides.short, ends.short) == ((24 - 21) / F(2) + F(1, 2), (20 - 18) / F(2) + F(1, 2))
