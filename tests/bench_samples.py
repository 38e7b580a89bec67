"""Publications and drawings made by hand for the bench's tests.

Sizes are worked out on paper from the geometry of each unit, not by the package; the sources
stand beside them. Every sample is complete: pieces, steps, counts, pictures.
"""

from __future__ import annotations

from math import ceil

from quicktions import Fraction

from pieceproof.lengths import Number, square_root
from pieceproof.published import (
    BackingFacts,
    BattingFacts,
    BindingFacts,
    Drawing,
    Make,
    MakeKind,
    Package,
    Patch,
    Picture,
    Piece,
    Publication,
)
from pieceproof.steps import (
    Assemble,
    Corner,
    CutApart,
    Diagonal,
    Join,
    Layer,
    Open,
    Placed,
    Press,
    Sew,
    Side,
    Slope,
    Step,
    Take,
    Trim,
    Turn,
    Yield,
)

F = Fraction
QUARTER = F(1, 4)
TWO, THREE, FOUR, SIX = F(2), F(3), F(4), F(6)
ROOT_2 = square_root(2)
ADDED = Press.ONTO_ADDED

Sample = tuple[Publication, Drawing]


def nine_patch(patch: Fraction = THREE, seam: Fraction = QUARTER) -> Sample:
    """Nine squares, cut = finished + 2 seams (check values 1 and 2, handout L1)."""
    side = patch + 2 * seam
    make = Make(
        "nine patch", MakeKind.TOP, "", 1, 1, 1, 3 * patch + 2 * seam, 3 * patch + 2 * seam,
        (grid("block", ("ABA", "BAB", "ABA"), seam), Yield(("block",))),
    )  # fmt: skip
    pieces = (
        piece("A", "dark", side, side, 5, "nine patch"),
        piece("B", "light", side, side, 4, "nine patch"),
    )
    patches = tuple(
        square("dark" if (x + y) % 2 == 0 else "light", x * patch, y * patch, patch)
        for y in range(3)
        for x in range(3)
    )
    return publication(pieces, (make,), seam), drawing(
        Picture("nine patch", 3 * patch, 3 * patch, patches)
    )


def half_square_triangles(finished: Fraction = THREE, seam: Fraction = QUARTER) -> Sample:
    """Two from two squares of F + s(2 + root 2); 3 gives 3 7/8 (check value 5: L1, NHQ, APQ)."""
    needed = finished + seam * (2 + ROOT_2)
    cut = rounded_up(needed, step_of(seam))
    side = finished + 2 * seam
    steps = (*two_triangle_squares(seam), *(trim(n, side, cut - needed) for n in ("one", "two")))
    unit = Make(
        "triangle square", MakeKind.UNIT, "half-square triangles", 2, 1, 2, side, side,
        (*steps, Yield(("one", "two"))),
    )  # fmt: skip
    pieces = (
        piece("A", "dark", cut, cut, 1, unit.name, needed=needed),
        piece("B", "light", cut, cut, 1, unit.name, needed=needed),
    )
    dark = Patch("dark", ((F(0), F(0)), (finished, F(0)), (F(0), finished)))
    light = Patch("light", ((finished, F(0)), (finished, finished), (F(0), finished)))
    picture = Picture(unit.name, finished, finished, (dark, light))
    return row_of_two(pieces, unit, picture, seam)


def two_triangle_squares(seam: Fraction) -> tuple[Step, ...]:
    """Both sides of the diagonal sewn, cut on it, opened; dark top left in both."""
    return (
        Take("one", "A"),
        Take("b", "B"),
        Layer("one", "b", Corner.TOP_LEFT),
        Sew("one", Diagonal(Slope.RISING, seam)),
        Sew("one", Diagonal(Slope.RISING, -seam)),
        CutApart("one", Diagonal(Slope.RISING, F(0)), "one", "two"),
        Open("one", Corner.BOTTOM_RIGHT, ADDED),
        Open("two", Corner.TOP_LEFT, ADDED),
        Turn("two", 2),
    )


def hourglasses(finished: Fraction = THREE, seam: Fraction = QUARTER) -> Sample:
    """Two from two squares of F + s(2 + 2 root 2); 3 gives 4 1/4 (check value 6: NHQ)."""
    needed = finished + seam * (2 + 2 * ROOT_2)
    cut = rounded_up(needed, step_of(seam))
    side = finished + 2 * seam
    steps = (
        *two_triangle_squares(seam)[:-1],
        Turn("two", 1),
        Layer("one", "two", Corner.TOP_LEFT),
        Sew("one", Diagonal(Slope.FALLING, seam)),
        Sew("one", Diagonal(Slope.FALLING, -seam)),
        CutApart("one", Diagonal(Slope.FALLING, F(0)), "one", "two"),
        Open("one", Corner.BOTTOM_LEFT, ADDED),
        Open("two", Corner.TOP_RIGHT, ADDED),
        Turn("two", 1),
        *(trim(n, side, cut - needed) for n in ("one", "two")),
        Yield(("one", "two")),
    )
    unit = Make("hourglass", MakeKind.UNIT, "quarter-square triangles", 2, 1, 2, side, side, steps)
    pieces = (
        piece("A", "dark", cut, cut, 1, unit.name, needed=needed),
        piece("B", "light", cut, cut, 1, unit.name, needed=needed),
    )
    corners = ((F(0), F(0)), (finished, F(0)), (finished, finished), (F(0), finished))
    middle = (finished / 2, finished / 2)
    patches = tuple(
        Patch("dark" if i % 2 == 0 else "light", (corners[i], corners[(i + 1) % 4], middle))
        for i in range(4)
    )
    return row_of_two(pieces, unit, Picture(unit.name, finished, finished, patches), seam)


def stitched_corners(
    width: Fraction = FOUR,
    height: Fraction = SIX,
    leg: Fraction = TWO,
    seam: Fraction = QUARTER,
) -> Sample:
    """A square of leg + 2 seams on one corner (common practice, no source)."""
    wide, tall = width + 2 * seam, height + 2 * seam
    corner = leg + 2 * seam
    steps = (
        Take("unit", "A", 0 if wide <= tall else 1),
        *flip_corner("B", Corner.TOP_LEFT, seam),
        Yield(("unit",)),
    )
    unit = Make("corner unit", MakeKind.UNIT, "stitched corner", 2, 2, 1, wide, tall, steps)
    pieces = (
        piece("A", "ground", min(wide, tall), max(wide, tall), 2, unit.name),
        piece("B", "corner", corner, corner, 2, unit.name),
    )
    zero = F(0)
    rest = ((leg, zero), (width, zero), (width, height), (zero, height), (zero, leg))
    patches = (
        Patch("corner", ((zero, zero), (leg, zero), (zero, leg))),
        Patch("ground", tuple(dict.fromkeys(rest))),
    )
    return row_of_two(pieces, unit, Picture(unit.name, width, height, patches), seam)


def flying_geese(height: Fraction = TWO, seam: Fraction = QUARTER) -> Sample:
    """A rectangle (W+2s) x (H+2s) and two squares H+2s (common practice, no source)."""
    width = 2 * height
    tall = height + 2 * seam
    steps = (
        Take("unit", "A", 1),
        *flip_corner("B", Corner.TOP_LEFT, seam),
        *flip_corner("B", Corner.TOP_RIGHT, seam),
        Yield(("unit",)),
    )
    unit = Make(
        "flying geese", MakeKind.UNIT, "flying geese", 2, 2, 1, width + 2 * seam, tall, steps
    )
    pieces = (
        piece("A", "goose", tall, width + 2 * seam, 2, unit.name),
        piece("B", "sky", tall, tall, 4, unit.name),
    )
    zero = F(0)
    patches = (
        Patch("goose", ((zero, height), (height, zero), (width, height))),
        Patch("sky", ((zero, zero), (height, zero), (zero, height))),
        Patch("sky", ((height, zero), (width, zero), (width, height))),
    )
    return row_of_two(pieces, unit, Picture(unit.name, width, height, patches), seam)


def star() -> Sample:
    """Centre 5, sides 3 1/4 x 5 with 3 in squares, corners 3 1/4, finishing at 10 in.

    Common practice of the trade, no source. The tips stop 1/4 in short of the centre's seam.
    """
    side_steps = (
        Take("unit", "B", 1),
        *flip_corner("C", Corner.BOTTOM_LEFT, QUARTER),
        *flip_corner("C", Corner.BOTTOM_RIGHT, QUARTER),
        Yield(("unit",)),
    )
    side = Make(
        "star point", MakeKind.UNIT, "stitched corners", 4, 4, 1, F(5), F(13, 4), side_steps
    )
    rows = (
        (Placed("D", 0), Placed("star point", 0), Placed("D", 0)),
        (Placed("star point", 3), Placed("A", 0), Placed("star point", 1)),
        (Placed("D", 0), Placed("star point", 2), Placed("D", 0)),
    )
    top = Make(
        "star", MakeKind.TOP, "", 1, 1, 1, F(21, 2), F(21, 2),
        (Assemble("top", rows, QUARTER, ("left", "right", "left"), "down"), Yield(("top",))),
    )  # fmt: skip
    pieces = (
        piece("A", "centre", F(5), F(5), 1, "star"),
        piece("B", "ground", F(13, 4), F(5), 4, "star point"),
        piece("C", "points", F(3), F(3), 8, "star point"),
        piece("D", "ground", F(13, 4), F(13, 4), 4, "star"),
    )
    o, q, wide, tall, tip = F(0), QUARTER, F(9, 2), F(11, 4), (F(9, 4), F(5, 2))
    point = Picture(
        "star point", wide, tall,
        (
            Patch("ground", ((o, o), (wide, o), (wide, q), tip, (o, q))),
            Patch("points", ((o, q), tip, (F(2), tall), (o, tall))),
            Patch("points", ((wide, q), (wide, tall), (F(2), tall))),
        ),
    )  # fmt: skip
    a, b = F(11, 4), F(29, 4)
    patches = (
        square("centre", a, a, F(9, 2)),
        *(square("ground", x, y, a) for y in (F(0), b) for x in (F(0), b)),
        *placed(point, 0, a, F(0)),
        *placed(point, 3, F(0), a),
        *placed(point, 1, b, a),
        *placed(point, 2, a, b),
    )
    picture = Picture("star", F(10), F(10), patches)
    return publication(pieces, (side, top), QUARTER), drawing(point, picture)


def sashed_top(across: int = 2, down: int = 2) -> Sample:
    """Nine-patch blocks of 6 in, 2 in sashing with cornerstones, one 3 in border, all round."""
    s, zero = QUARTER, F(0)
    wide, tall = 8 * across - 2, 8 * down - 2
    blocks = across * down
    uprights, levels = (across - 1) * down, across * (down - 1)
    names = ("block", "centre", "top")
    block_rows = (grid("item", ("ABA", "BAB", "ABA"), s), Yield(("item",)))
    block_row = row_between([Placed("block", 0)] * across, Placed("C", 0))
    sash_row = row_between([Placed("C", 1)] * across, Placed("D", 0))
    rows = [block_row if i % 2 == 0 else sash_row for i in range(2 * down - 1)]
    makes = (
        Make("block", MakeKind.BLOCK, "", blocks, blocks, 1, F(13, 2), F(13, 2), block_rows),
        Make(
            "centre", MakeKind.CENTRE, "", 1, 1, 1, wide + 2 * s, tall + 2 * s,
            (
                Assemble("item", tuple(rows), s, ("right",) * len(rows), "down"),
                Yield(("item",)),
            ),
        ),
        Make(
            "top", MakeKind.TOP, "", 1, 1, 1, wide + 6 + 2 * s, tall + 6 + 2 * s,
            (
                Take("item", "centre"),
                *border("item", "E", (Side.LEFT, Side.RIGHT), s, 0),
                *border("item", "F", (Side.TOP, Side.BOTTOM), s, 1),
                Yield(("item",)),
            ),
        ),
    )  # fmt: skip
    pieces = (
        piece("A", "dark", F(5, 2), F(5, 2), 5 * blocks, names[0]),
        piece("B", "light", F(5, 2), F(5, 2), 4 * blocks, names[0]),
        piece("C", "sash", F(5, 2), F(13, 2), uprights + levels, names[1]),
        piece("D", "stone", F(5, 2), F(5, 2), (across - 1) * (down - 1), names[1]),
        piece("E", "edge", F(7, 2), tall + 2 * s, 2, names[2]),
        piece("F", "edge", F(7, 2), wide + 6 + 2 * s, 2, names[2]),
    )
    block_patches = tuple(
        square("dark" if (x + y) % 2 == 0 else "light", F(2 * x), F(2 * y), F(2))
        for y in range(3)
        for x in range(3)
    )
    block = Picture("block", F(6), F(6), block_patches)
    xs, ys = [F(8 * i) for i in range(across)], [F(8 * j) for j in range(down)]
    centre_patches = (
        *(p for x in xs for y in ys for p in placed(block, 0, x, y)),
        *(patch("sash", x + 6, y, F(2), F(6)) for x in xs[:-1] for y in ys),
        *(patch("sash", x, y + 6, F(6), F(2)) for x in xs for y in ys[:-1]),
        *(square("stone", x + 6, y + 6, F(2)) for x in xs[:-1] for y in ys[:-1]),
    )
    centre = Picture("centre", F(wide), F(tall), centre_patches)
    top_patches = (
        *placed(centre, 0, F(3), F(3)),
        patch("edge", zero, F(3), F(3), F(tall)),
        patch("edge", F(wide + 3), F(3), F(3), F(tall)),
        patch("edge", zero, zero, F(wide + 6), F(3)),
        patch("edge", zero, F(tall + 3), F(wide + 6), F(3)),
    )
    top = Picture("top", F(wide + 6), F(tall + 6), top_patches)
    return finished(publication(pieces, makes, s)), drawing(block, centre, top)


def finished(quilt: Publication) -> Publication:
    """The same with binding (perimeter + 10), backing and batting (4 in beyond, each side)."""
    wide, tall = quilt.width, quilt.height
    return Publication(
        **{
            **vars(quilt),
            "binding": BindingFacts("edge", F(5, 2), F(10), 2 * (wide + tall) + 10),
            "backing": BackingFacts("back", F(4), wide + 8, tall + 8),
            "batting": BattingFacts(F(4), wide + 8, tall + 8, Package(F(45), F(60))),
        }
    )


def row_of_two(pieces: tuple[Piece, ...], unit: Make, picture: Picture, seam: Fraction) -> Sample:
    """A top of two equal units side by side, the second turned by a half."""
    top = Make(
        "top", MakeKind.TOP, "", 1, 1, 1, 2 * picture.width + 2 * seam, unit.height,
        (
            Assemble("top", ((Placed(unit.name, 0), Placed(unit.name, 2)),), seam, ("open",), "up"),
            Yield(("top",)),
        ),
    )  # fmt: skip
    patches = (
        *picture.patches,
        *placed(picture, 2, picture.width, F(0)),
    )
    both = Picture("top", 2 * picture.width, picture.height, patches)
    return publication(pieces, (unit, top), seam), drawing(picture, both)


def flip_corner(letter: str, corner: Corner, seam: Fraction) -> tuple[Step, ...]:
    """A square laid on a corner, sewn on its diagonal, cut outside it, folded out."""
    rising = corner in (Corner.TOP_LEFT, Corner.BOTTOM_RIGHT)
    at_top = corner in (Corner.TOP_LEFT, Corner.TOP_RIGHT)
    slope = Slope.RISING if rising else Slope.FALLING
    parts = ("", "unit") if at_top else ("unit", "")
    return (
        Take("corner", letter),
        Layer("unit", "corner", corner),
        Sew("unit", Diagonal(slope, F(0))),
        CutApart("unit", Diagonal(slope, seam if at_top else -seam), *parts),
        Open("unit", corner, ADDED),
    )


def trim(item: str, side: Fraction, surplus: Number) -> Trim:
    """A square trimmed alike on all sides."""
    return Trim(item, side, side, surplus / 2, surplus / 2, surplus / 2, surplus / 2)


def border(
    item: str, letter: str, sides: tuple[Side, Side], seam: Fraction, turn: int
) -> tuple[Step, ...]:
    """Two equal strips on opposite sides."""
    return tuple(
        step
        for side in sides
        for step in (Take("strip", letter, turn), Join(item, "strip", side, seam, ADDED))
    )


def row_between(cells: list[Placed], between: Placed) -> tuple[Placed, ...]:
    """Cells with one thing between each two."""
    return tuple(c for cell in cells for c in (between, cell))[1:]


def grid(item: str, rows: tuple[str, ...], seam: Fraction) -> Assemble:
    """Rows of piece letters."""
    cells = tuple(tuple(Placed(letter, 0) for letter in row) for row in rows)
    return Assemble(item, cells, seam, ("left",) * len(rows), "down")


def piece(
    letter: str,
    fabric: str,
    short: Fraction,
    long: Fraction,
    count: int,
    *uses: str,
    needed: Number | None = None,
) -> Piece:
    """A line of the cutting list; ``needed`` for a square that is rounded up."""
    exact = (short, long) if needed is None else (needed, needed)
    return Piece(letter, fabric, short, long, *exact, count, uses)


def publication(pieces: tuple[Piece, ...], makes: tuple[Make, ...], seam: Fraction) -> Publication:
    """A publication without finishing; metric where the seam is no multiple of 1/8."""
    step = step_of(seam)
    top = makes[-1]
    return Publication(
        "sample", "only", "inch" if step == F(1, 8) else "centimetre", step, seam,
        top.width - 2 * seam, top.height - 2 * seam, pieces, makes, None, None, None,
    )  # fmt: skip


def drawing(*pictures: Picture) -> Drawing:
    """Pictures by name."""
    return Drawing({picture.name: picture for picture in pictures})


def patch(fabric: str, x: Number, y: Number, width: Number, height: Number) -> Patch:
    """A rectangular patch."""
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Patch(fabric, corners)


def square(fabric: str, x: Number, y: Number, side: Number) -> Patch:
    """A square patch."""
    return patch(fabric, x, y, side, side)


def placed(picture: Picture, turn: int, x: Number, y: Number) -> tuple[Patch, ...]:
    """A picture's patches, turned clockwise by quarters and moved."""
    patches, height, other = picture.patches, picture.height, picture.width
    for _ in range(turn):
        patches = tuple(
            Patch(p.fabric, tuple((height - py, px) for px, py in p.outline)) for p in patches
        )
        height, other = other, height
    return tuple(Patch(p.fabric, tuple((px + x, py + y) for px, py in p.outline)) for p in patches)


def step_of(seam: Fraction) -> Fraction:
    """The ruler's grid: 1/8 in, or 1 mm for a seam in centimetres."""
    return F(1, 8) if (seam * 8).denominator == 1 else F(1, 10)


def rounded_up(value: Number, step: Fraction) -> Fraction:
    """The next size a ruler shows; binary floats are near enough for these few values."""
    return ceil(float(value) / float(step)) * step


INCH_SAMPLES = {
    "nine patch": nine_patch,
    "half-square triangles": half_square_triangles,
    "hourglasses": hourglasses,
    "stitched corners": stitched_corners,
    "flying geese": flying_geese,
    "star": star,
    "sashed top": sashed_top,
}
