"""How large a quilt for a bed should be, by how much a size misses it, and what comes nearest.

In: a design that names a bed. Out: the size to aim at, and the numbers of blocks and the width of
the outer border that come nearest to it. Nothing here is published: a quilt may be larger or
smaller than its bed asks for, if its writer says so.

A quilt for a mattress W x L with a drop D is W + 2 D wide and L + D long: it hangs down at both
sides and at the foot (check value 96: QC). Cots are left out: infants sleep without quilts
(check value 121: CPSC).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product

from quicktions import Fraction

from pieceproof.borders import border_width
from pieceproof.layout import lay_out, setting_name
from pieceproof.lengths import floor_to
from pieceproof.model import (
    Bed,
    Border,
    Design,
    Mattress,
    Measure,
    MitredBorder,
    OnPoint,
    Rows,
    Setting,
    Size,
)

MATTRESSES_IN: Mapping[Mattress, tuple[int, int]] = {
    # Width and length in inches (check value 95: QC, a magazine's page on bed sizes). Of two
    # widths in print for king, 76 and 78, the first; shops' tables differ, so `size` overrides.
    Mattress.TWIN: (39, 75),
    Mattress.TWIN_XL: (39, 80),
    Mattress.FULL: (54, 75),
    Mattress.QUEEN: (60, 80),
    Mattress.KING: (76, 80),
    Mattress.CALIFORNIA_KING: (72, 84),
}
_CM_PER_INCH = Fraction(254, 100)  # exact since 1959 (check value 108: YARD)
_MOST = 100
_ROUNDED: Mapping[Measure, Fraction] = {
    Measure.INCH: Fraction(1, 4),
    Measure.CENTIMETRE: Fraction(1, 2),
}
_NARROWEST: Mapping[Measure, Fraction] = {
    Measure.INCH: Fraction(1),
    Measure.CENTIMETRE: Fraction(2),
}


@dataclass(frozen=True)
class Hang:
    """How a quilt lies on a bed: how far it hangs at each side, and what is left at the pillow.

    The foot hangs as far as the sides; ``pillow`` is less than 0 where the quilt is too short.
    """

    sides: Fraction
    pillow: Fraction


@dataclass(frozen=True)
class Nearest:
    """Numbers of blocks, the outer border's width if there is one, and the top they make.

    ``counts`` are blocks across and down, None for settings that have no such numbers.
    """

    counts: tuple[int, int] | None
    border: Fraction | None
    top: Size


@dataclass(frozen=True)
class BedFit:
    """The size to aim at, the top as designed, and what comes nearest, the design included."""

    target: Size
    top: Size
    nearest: Nearest


def target(bed: Bed, measure: Measure) -> Size:
    """W + 2 D by L + D, in the pattern's unit."""
    mattress = mattress_of(bed, measure)
    return Size(mattress.width + 2 * bed.drop, mattress.height + bed.drop)


def mattress_of(bed: Bed, measure: Measure) -> Size:
    """Width and length as the writer states them, or as in the table."""
    if bed.size is not None:
        return bed.size
    unit = Fraction(1) if measure is Measure.INCH else _CM_PER_INCH
    width, length = MATTRESSES_IN[bed.mattress]
    return Size(width * unit, length * unit)


def hang(mattress: Size, top: Size) -> Hang:
    """The same read backwards, for a quilt that is there."""
    sides = (top.width - mattress.width) / 2
    return Hang(sides, top.height - mattress.height - sides)


def bed_fit(design: Design) -> BedFit | None:
    """How a design fits its bed; None without a bed, or where its sizes have problems."""
    top = _top(design)
    if design.bed is None or top is None:
        return None
    aim = target(design.bed, design.measure)
    nearest = min(_candidates(design, top, aim), key=lambda n: _rank(design, n, aim))
    return BedFit(aim, top, nearest)


def bed_words(design: Design) -> tuple[str, ...]:
    """What a writer wants to know of `bed_fit`, in sentences; empty without a bed."""
    fit = bed_fit(design)
    if fit is None or design.bed is None:
        return ()
    show = design.measure.show
    wanted = f"{show(fit.target.width)} x {show(fit.target.height)}"
    is_best = (fit.nearest.top, fit.nearest.border) == (fit.top, _outer_width(design))
    return (
        f"A {design.bed.mattress.value} bed with a drop of {show(design.bed.drop)} wants {wanted}; "
        f"this size is {_misses(design, fit.top, fit.target)}.",
        "No other number of blocks and no other border comes nearer."
        if is_best
        else _proposal(design, fit),
    )


def _proposal(design: Design, fit: BedFit) -> str:
    """``6 across and 7 down and an outer border 5 wide make 82 x 94, 2 too narrow...``."""
    show, nearest = design.measure.show, fit.nearest
    blocks = [f"{nearest.counts[0]} across and {nearest.counts[1]} down"] if nearest.counts else []
    border = [] if nearest.border is None else [f"an outer border {show(nearest.border)} wide"]
    makes = "make" if blocks else "makes"
    size = f"{show(nearest.top.width)} x {show(nearest.top.height)}"
    words = f"{' and '.join([*blocks, *border])} {makes} {size}"
    return f"{words[:1].upper()}{words[1:]}, {_misses(design, nearest.top, fit.target)}."


def _misses(design: Design, top: Size, aim: Size) -> str:
    """``4 too wide and 2 too short``, ``just right``."""
    show, parts = design.measure.show, []
    for found, wanted, more, less in (
        (top.width, aim.width, "wide", "narrow"),
        (top.height, aim.height, "long", "short"),
    ):
        if found != wanted:
            parts.append(f"{show(abs(found - wanted))} too {more if found > wanted else less}")
    return " and ".join(parts) or "just right"


def _candidates(design: Design, top: Size, aim: Size) -> Iterator[Nearest]:
    """The design as it is, and the counts around the aim, each with the best outer border."""
    yield Nearest(_counts(design), _outer_width(design), top)
    for counted in _counted(design, top, aim):
        for tried in (counted, *_with_border(counted, aim)):
            size = _top(tried)
            if size is not None:
                yield Nearest(_counts(tried), _outer_width(tried), size)


def _counted(design: Design, top: Size, aim: Size) -> Iterator[Design]:
    """The design with the counts that come nearest; itself if it has none."""
    counts = _counts(design)
    if counts is None:
        yield design
        return
    wide, high = _pitch(design, counts)
    for across, down in product(
        _around(counts[0], aim.width - top.width, wide),
        _around(counts[1], aim.height - top.height, high),
    ):
        yield _with_counts(design, across, down)


def _around(count: int, missing: Fraction, pitch: Fraction) -> tuple[int, ...]:
    """The count that fills what is missing, rounded down and up."""
    if pitch <= 0:
        return (count,)
    low = count + missing // pitch
    return tuple(n for n in (low, low + 1) if 1 <= n <= _MOST) or (min(max(low, 1), _MOST),)


def _pitch(design: Design, counts: tuple[int, int]) -> tuple[Fraction, Fraction]:
    """What one block more adds on average, from one motif more in each direction."""
    rows = _motif(design)
    more = _centre(_with_counts(design, counts[0] + len(rows[0]), counts[1] + len(rows)))
    now = _centre(design)
    if more is None or now is None:
        return Fraction(0), Fraction(0)
    return (more.width - now.width) / len(rows[0]), (more.height - now.height) / len(rows)


def _motif(design: Design) -> Rows:
    return design.setting.rows if isinstance(design.setting, Setting | OnPoint) else ()


def _counts(design: Design) -> tuple[int, int] | None:
    setting = design.setting
    if not isinstance(setting, Setting | OnPoint):
        return None
    return setting.across or len(setting.rows[0]), setting.down or len(setting.rows)


def _with_counts(design: Design, across: int, down: int) -> Design:
    assert isinstance(design.setting, Setting | OnPoint)
    return replace(design, setting=replace(design.setting, across=across, down=down))


def _with_border(design: Design, aim: Size) -> Iterator[Design]:
    """The outer border wider or narrower by a quarter of what is missing in both directions."""
    top = _top(design)
    if top is None or not design.borders:
        return
    *inner, outer = design.borders
    if not isinstance(outer, Border | MitredBorder):
        return
    step, narrowest = _ROUNDED[design.measure], _NARROWEST[design.measure]
    missing = (aim.width - top.width + aim.height - top.height) / 4
    width = max(outer.width + floor_to(missing + step / 2, step), narrowest)
    yield replace(design, borders=(*inner, replace(outer, width=width)))


def _outer_width(design: Design) -> Fraction | None:
    outer = design.borders[-1] if design.borders else None
    return outer.width if isinstance(outer, Border | MitredBorder) else None


def _centre(design: Design) -> Size | None:
    return _top(replace(design, borders=()))


def _top(design: Design) -> Size | None:
    """The finished size, None where the sizes of a design have problems."""
    layouts, problems = lay_out(design)
    if problems:
        return None
    centre = layouts[setting_name(design)].size
    widths = (border_width(n, b, layouts) for n, b in enumerate(design.borders, start=1))
    around = 2 * sum(widths, Fraction(0))
    return Size(centre.width + around, centre.height + around)


def _rank(design: Design, nearest: Nearest, aim: Size) -> tuple[Fraction, Fraction, int]:
    """The larger miss, then both together, then how much is changed."""
    misses = [abs(nearest.top.width - aim.width), abs(nearest.top.height - aim.height)]
    old, new = _counts(design) or (0, 0), nearest.counts or (0, 0)
    changed = abs(new[0] - old[0]) + abs(new[1] - old[1])
    other_border = int(nearest.border != _outer_width(design))
    return max(misses), sum(misses, Fraction(0)), changed + other_border
