"""How one cloth is cut: strips across it, and what each strip is cut into.

In: a subject, fabrics cut from one cloth, its plan and its motifs. Out: one scene, to scale.
Equal strips are drawn once and counted; very tall strips and very long runs are drawn broken.
The squared end lies on the left, and on the right for the left hand.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from quicktions import Fraction

from pieceproof.cutting.plan import Joined, Placed, Plan, Strip, placed_in_strip, strip_count
from pieceproof.demands import letter_of
from pieceproof.diagrams.legible import PHONE, letter_fits, settled, wide, wrapped
from pieceproof.diagrams.motifs import motif_band
from pieceproof.diagrams.sheet import (
    AFTER,
    HEADING,
    LETTERS,
    LINE,
    SELVAGE,
    Band,
    Sheet,
    broken,
    flush,
    left_over,
    rectangle,
    selvages,
)
from pieceproof.diagrams.strip_words import heading, run_cuts, run_heading, sub_cuts, told
from pieceproof.diagrams.subject import Subject, called, length
from pieceproof.diagrams.words import counted, series
from pieceproof.drawing.scene import (
    MIRROR,
    Area,
    AreaKind,
    Box,
    Group,
    Item,
    Letter,
    Line,
    LineKind,
    Measure,
    Note,
    Scene,
    Side,
    TextKind,
    flat,
)
from pieceproof.fussy import Fussy

_TALLEST = 180.0
_RUN = 24.0
_TEXT_MARGIN = 42
_LONGEST_RUN = 12


def cutting(
    subject: Subject,
    fabrics: Sequence[str],
    plan: Plan,
    motifs: Sequence[Fussy],
    width: int = PHONE,
) -> Scene:
    """Squaring the cloth, motifs, its strips in cutting order, then what is joined from them."""
    text = f"{length(subject, plan.width)} usable width"
    above = Measure((0, 0), (plan.width, 0), text)

    def build(pixel: float) -> Scene:
        sheet = Sheet(subject, fabrics[0], plan, width - _TEXT_MARGIN, pixel)
        return _scene(sheet, fabrics, motifs, (above,), _squaring(sheet))

    return settled(build, plan.width, width)


def strips(
    subject: Subject,
    fabrics: Sequence[str],
    plan: Plan,
    motifs: Sequence[Fussy],
    width: int = PHONE,
) -> Scene:
    """The same without the squaring, where another cloth of this width has shown it."""

    def build(pixel: float) -> Scene:
        sheet = Sheet(subject, fabrics[0], plan, width - _TEXT_MARGIN, pixel)
        return _scene(sheet, fabrics, motifs, (), Band((), 0.0))

    return settled(build, plan.width, width)


def strip_alone(subject: Subject, fabric: str, plan: Plan, strip: Strip) -> Scene:
    """One strip without a word about it, to stand beside its words."""

    def build(pixel: float) -> Scene:
        sheet = Sheet(subject, fabric, plan, PHONE - _TEXT_MARGIN, pixel)
        edge, drawn = sheet.px(SELVAGE), _drawn_strip(sheet, strip, sheet.px(1))
        box = Box(-edge, 0, sheet.width + 2 * edge, drawn.end)
        return Scene(heading(subject, strip), "", box, tuple(drawn.items))

    return settled(build, plan.width, PHONE)


def left_handed(scene: Scene) -> Scene:
    """A cutting drawing with everything on the other side; texts stay as they are."""
    box = scene.box
    items = [_beside(item) for item in flat([Group(scene.items, MIRROR)])]
    return replace(
        scene,
        title=f"{scene.title}, from the right",
        box=Box(-float(box.x) - float(box.width), box.y, box.width, box.height),
        items=items,
    )


def _beside(item: Item) -> Item:
    """Texts beside a mirrored place stand on its other side."""
    swapped = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
    if isinstance(item, Note):
        return replace(item, side=swapped.get(item.side, item.side))
    return item


def _scene(
    sheet: Sheet,
    fabrics: Sequence[str],
    motifs: Sequence[Fussy],
    above: Sequence[Item],
    first: Band,
) -> Scene:
    """All bands below each other, after what stands above the first."""
    subject, plan = sheet.subject, sheet.plan
    bands = [first]
    for fussy in motifs:
        bands.append(motif_band(sheet, fussy, bands[-1].end))
    for strip in plan.strips:
        bands.append(_strip(sheet, strip, bands[-1].end))
    for joined in plan.joined:
        bands.append(_run(sheet, joined, bands[-1].end))
    names = series(called(subject, fabric) for fabric in fabrics)
    lengths = [counted(len(motifs), "length")] if motifs else []
    cut = [counted(strip_count(plan), "strip")] if plan.strips else []
    edge = sheet.px(SELVAGE)
    return Scene(
        f"Cutting {names}: {series([*lengths, *cut])}",
        told(subject, fabrics, plan, motifs),
        Box(-edge, 0, sheet.width + 2 * edge, bands[-1].end - sheet.px(AFTER)),
        (*above, *(i for band in bands for i in band.items)),
    )


def _squaring(sheet: Sheet) -> Band:
    """The uneven end of the cloth, the fold and the selvages."""
    height = max(float(sheet.plan.squaring), sheet.px(5))
    bottom, middle = height, sheet.width / 2
    below = bottom + sheet.px(13.5)
    items: list[Item] = [
        *left_over(sheet, 0, 0, sheet.width, height),
        *selvages(sheet, 0, height),
        Line(((0, bottom), (sheet.width, bottom)), LineKind.CUT),
        Line(((middle, 0), (middle, bottom + sheet.px(5))), LineKind.FOLD),
        flush(sheet, "Square this end", below - sheet.px(LINE / 2), TextKind.CAPTION),
        Note((middle, bottom), "fold", Side.BELOW, TextKind.CAPTION),
        Note((sheet.width + sheet.px(SELVAGE + 7), below), "selvage", Side.LEFT, TextKind.CAPTION),
    ]
    return Band(items, bottom + sheet.px(LINE + AFTER + 8))


def _strip(sheet: Sheet, strip: Strip, top: float) -> Band:
    """One of some equal strips between its heading and its cuts in words."""
    drawn = _drawn_strip(sheet, strip, top + sheet.px(HEADING))
    text = wrapped(sub_cuts(sheet.subject, sheet.plan, strip), sheet.room, TextKind.CAPTION)
    items = [
        flush(sheet, heading(sheet.subject, strip), top, TextKind.LABEL),
        *drawn.items,
        flush(sheet, text, drawn.end, TextKind.CAPTION),
    ]
    lines = text.count("\n") + 1
    return Band(items, drawn.end + sheet.px(lines * LINE + AFTER))


def _drawn_strip(sheet: Sheet, strip: Strip, y: float) -> Band:
    """A strip below ``y``, its pieces from the left, what is left of it."""
    squeeze = min(1.0, sheet.px(_TALLEST) / float(strip.height))
    height = float(strip.height) * squeeze
    pieces = [_Piece(p, y, squeeze) for p in placed_in_strip(strip, Fraction(0), 0)]
    used = max((p.right for p in pieces), default=0.0)
    small = [p for p in pieces if not p.fits(sheet.pixel)]
    items = [
        *selvages(sheet, y, height),
        *(area for p in pieces for area in _piece_items(sheet, p)),
        *_trimmings(sheet, pieces, y + height),
        *left_over(sheet, used, y, sheet.width - used, height),
        Line(((0, y), (0, y + height)), LineKind.CUT),
        *_small_letters(sheet, small, y + height),
        *(broken(sheet, y + height / 2) if squeeze < 1 else ()),
    ]
    return Band(items, y + height + sheet.px(LETTERS if small else 5))


@dataclass(frozen=True)
class _Piece:
    """A piece of a strip whose upper edge is drawn at ``y``."""

    placed: Placed
    y: float
    squeeze: float

    @property
    def left(self) -> float:
        return float(self.placed.left)

    @property
    def right(self) -> float:
        return float(self.placed.left + self.placed.across)

    @property
    def top(self) -> float:
        return self.y + float(self.placed.top) * self.squeeze

    @property
    def bottom(self) -> float:
        return self.y + float(self.placed.top + self.placed.along) * self.squeeze

    def fits(self, pixel: float) -> bool:
        room = min(self.right - self.left, self.bottom - self.top)
        return letter_fits(room, pixel * 0.95, self.letter)

    @property
    def letter(self) -> str:
        return letter_of(self.placed.letter)


def _piece_items(sheet: Sheet, piece: _Piece) -> Iterator[Item]:
    corners = rectangle(piece.left, piece.top, piece.right, piece.bottom)
    yield Area(corners, sheet.fabric, None, AreaKind.PIECE, 1)
    if piece.fits(sheet.pixel):
        middle = ((piece.left + piece.right) / 2, (piece.top + piece.bottom) / 2)
        yield Letter(middle, piece.letter)


def _small_letters(sheet: Sheet, small: Sequence[_Piece], bottom: float) -> Iterator[Item]:
    """One letter below each run of equal pieces that are too small for theirs."""
    taken = float("-inf")
    for letter, run in groupby(small, key=lambda piece: piece.letter):
        pieces = list(run)
        x = (pieces[0].left + pieces[-1].right) / 2
        half = sheet.px(wide(letter, TextKind.PIECE) / 2 + 2)
        x = max(x, taken + half)
        taken = x + half
        yield Line(((x, bottom - sheet.px(4)), (x, bottom + sheet.px(4))), LineKind.LEADER)
        yield Letter((x, bottom + sheet.px(12)), letter)


def _trimmings(sheet: Sheet, pieces: Sequence[_Piece], bottom: float) -> Iterator[Item]:
    """What is trimmed off below pieces that are not as high as the strip."""
    for (left, right), column in groupby(pieces, key=lambda piece: (piece.left, piece.right)):
        lowest = max(piece.bottom for piece in column)
        if bottom - lowest > 1e-9:
            yield from left_over(sheet, left, lowest, right - left, bottom - lowest)


def _run(sheet: Sheet, joined: Joined, top: float) -> Band:
    """Strips joined end to end, and the lengths cut from the run; one strip high, not to scale."""
    y, bottom = top + sheet.px(HEADING), top + sheet.px(HEADING + _RUN)
    shown = min(joined.run, _LONGEST_RUN * sheet.plan.width)
    text = wrapped(run_cuts(sheet.subject, joined), sheet.room, TextKind.CAPTION)
    after = bottom + sheet.px(6)
    items = [
        flush(sheet, run_heading(joined), top, TextKind.LABEL),
        *_lengths(sheet, joined, shown, (y, bottom)),
        *_seams(sheet, joined, shown, (y, bottom)),
        *(_torn(sheet, y, bottom) if shown < joined.run else ()),
        flush(sheet, text, after, TextKind.CAPTION),
    ]
    lines = text.count("\n") + 1
    return Band(items, after + sheet.px(lines * LINE + AFTER))


def _lengths(
    sheet: Sheet, joined: Joined, shown: Fraction, level: tuple[float, float]
) -> Iterator[Item]:
    y, bottom = level
    scale = sheet.width / float(shown)
    seams = _seam_places(sheet, joined, shown)
    for index in range(joined.count):
        left = float(index * joined.length) * scale
        right = min(float((index + 1) * joined.length) * scale, sheet.width)
        if left >= sheet.width:
            return
        yield Area(rectangle(left, y, right, bottom), sheet.fabric, None, AreaKind.PIECE, 1)
        ends = [left, *(x for x in seams if left < x < right), right]
        free, x = max((b - a, (a + b) / 2) for a, b in pairwise(ends))
        if letter_fits(free, sheet.pixel, letter_of(joined.letter)):
            yield Letter((x, (y + bottom) / 2), letter_of(joined.letter))
    used = float(joined.count * joined.length) * scale
    if shown == joined.run:
        yield from left_over(sheet, used, y, sheet.width - used, bottom - y)


def _seams(
    sheet: Sheet, joined: Joined, shown: Fraction, level: tuple[float, float]
) -> Iterator[Item]:
    y, bottom = level
    slant = sheet.px(_RUN) / 2 if joined.join == "diagonal" else 0.0
    for x in _seam_places(sheet, joined, shown):
        past = max(0.0, x + slant - sheet.width)
        up = past / (2 * slant) * (bottom - y) if past else 0.0
        yield Line(((x - slant, y), (x + slant - past, bottom - up)), LineKind.SEAM)


def _seam_places(sheet: Sheet, joined: Joined, shown: Fraction) -> list[float]:
    """The middles of the seams; each strip but the first adds its length less the loss."""
    step = sheet.plan.width - joined.loss
    places = [index * step + joined.loss / 2 for index in range(1, joined.strips)]
    return [float(place / shown) * sheet.width for place in places if place < shown]


def _torn(sheet: Sheet, y: float, bottom: float) -> Iterator[Item]:
    right, tooth = sheet.width, sheet.px(4)
    ys = [y + (bottom - y) * i / 4 for i in range(5)]
    edge = [(right - tooth * (1 + i % 2), py) for i, py in enumerate(ys)]
    far = right + sheet.px(3)
    yield Area((*edge, (far, bottom), (far, y)), kind=AreaKind.CLOTH, layer=3)
