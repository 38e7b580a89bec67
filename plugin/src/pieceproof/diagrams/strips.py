"""How one cloth is cut: strips across it, and what each strip is cut into.

In: a subject, fabrics that are cut from one cloth, and its plan. Out: one scene, to scale.
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
from pieceproof.diagrams.strip_words import heading, run_cuts, run_heading, sub_cuts, told
from pieceproof.diagrams.subject import Subject, called, length
from pieceproof.diagrams.words import counted, series
from pieceproof.drawing.hatch import hatch_lines
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
    Place,
    Scene,
    Side,
    TextKind,
    flat,
)

_HEADING = 21.0
_LINE = 17.0
_AFTER = 14.0
_LETTERS = 20.0
_SELVAGE = 6.0
_TALLEST = 180.0
_HATCH = 7.0
_RUN = 24.0
_TEXT_MARGIN = 42
_LONGEST_RUN = 12


@dataclass(frozen=True)
class _Sheet:
    """The cloth as it is drawn: its plan, its colour's fabric, pixels for texts, scale."""

    subject: Subject
    fabric: str
    plan: Plan
    room: float
    pixel: float

    @property
    def width(self) -> float:
        return float(self.plan.width)

    def px(self, pixels: float) -> float:
        return pixels * self.pixel


@dataclass(frozen=True)
class _Band:
    """Something drawn across the cloth, and where the next one may start."""

    items: Sequence[Item]
    end: float


def cutting(subject: Subject, fabrics: Sequence[str], plan: Plan, width: int = PHONE) -> Scene:
    """Squaring the cloth, its strips in cutting order, then what is joined from them."""
    text = f"{length(subject, plan.width)} usable width"
    above = Measure((0, 0), (plan.width, 0), text)

    def build(pixel: float) -> Scene:
        sheet = _Sheet(subject, fabrics[0], plan, width - _TEXT_MARGIN, pixel)
        return _scene(sheet, fabrics, (above,), _squaring(sheet))

    return settled(build, plan.width, width)


def strips(subject: Subject, fabrics: Sequence[str], plan: Plan, width: int = PHONE) -> Scene:
    """The same without the squaring, where another cloth of this width has shown it."""

    def build(pixel: float) -> Scene:
        sheet = _Sheet(subject, fabrics[0], plan, width - _TEXT_MARGIN, pixel)
        return _scene(sheet, fabrics, (), _Band((), 0.0))

    return settled(build, plan.width, width)


def strip_alone(subject: Subject, fabric: str, plan: Plan, strip: Strip) -> Scene:
    """One strip without a word about it, to stand beside its words."""

    def build(pixel: float) -> Scene:
        sheet = _Sheet(subject, fabric, plan, PHONE - _TEXT_MARGIN, pixel)
        edge, drawn = sheet.px(_SELVAGE), _drawn_strip(sheet, strip, sheet.px(1))
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


def _scene(sheet: _Sheet, fabrics: Sequence[str], above: Sequence[Item], first: _Band) -> Scene:
    """All bands below each other, after what stands above the first."""
    subject, plan = sheet.subject, sheet.plan
    bands = [first]
    for strip in plan.strips:
        bands.append(_strip(sheet, strip, bands[-1].end))
    for joined in plan.joined:
        bands.append(_run(sheet, joined, bands[-1].end))
    names = series(called(subject, fabric) for fabric in fabrics)
    edge = sheet.px(_SELVAGE)
    return Scene(
        f"Cutting {names}: {counted(strip_count(plan), 'strip')}",
        told(subject, fabrics, plan),
        Box(-edge, 0, sheet.width + 2 * edge, bands[-1].end - sheet.px(_AFTER)),
        (*above, *(i for band in bands for i in band.items)),
    )


def _squaring(sheet: _Sheet) -> _Band:
    """The uneven end of the cloth, the fold and the selvages."""
    height = max(float(sheet.plan.squaring), sheet.px(5))
    bottom, middle = height, sheet.width / 2
    below = bottom + sheet.px(13.5)
    items: list[Item] = [
        *_left_over(sheet, 0, 0, sheet.width, height),
        *_selvages(sheet, 0, height),
        Line(((0, bottom), (sheet.width, bottom)), LineKind.CUT),
        Line(((middle, 0), (middle, bottom + sheet.px(5))), LineKind.FOLD),
        _flush(sheet, "Square this end", below - sheet.px(_LINE / 2), TextKind.CAPTION),
        Note((middle, bottom), "fold", Side.BELOW, TextKind.CAPTION),
        Note((sheet.width + sheet.px(_SELVAGE + 7), below), "selvage", Side.LEFT, TextKind.CAPTION),
    ]
    return _Band(items, bottom + sheet.px(_LINE + _AFTER + 8))


def _strip(sheet: _Sheet, strip: Strip, top: float) -> _Band:
    """One of some equal strips between its heading and its cuts in words."""
    drawn = _drawn_strip(sheet, strip, top + sheet.px(_HEADING))
    text = wrapped(sub_cuts(sheet.subject, sheet.plan, strip), sheet.room, TextKind.CAPTION)
    items = [
        _flush(sheet, heading(sheet.subject, strip), top, TextKind.LABEL),
        *drawn.items,
        _flush(sheet, text, drawn.end, TextKind.CAPTION),
    ]
    lines = text.count("\n") + 1
    return _Band(items, drawn.end + sheet.px(lines * _LINE + _AFTER))


def _drawn_strip(sheet: _Sheet, strip: Strip, y: float) -> _Band:
    """A strip below ``y``, its pieces from the left, what is left of it."""
    squeeze = min(1.0, sheet.px(_TALLEST) / float(strip.height))
    height = float(strip.height) * squeeze
    pieces = [_Piece(p, y, squeeze) for p in placed_in_strip(strip, Fraction(0), 0)]
    used = max((p.right for p in pieces), default=0.0)
    small = [p for p in pieces if not p.fits(sheet.pixel)]
    items = [
        *_selvages(sheet, y, height),
        *(area for p in pieces for area in _piece_items(sheet, p)),
        *_trimmings(sheet, pieces, y + height),
        *_left_over(sheet, used, y, sheet.width - used, height),
        Line(((0, y), (0, y + height)), LineKind.CUT),
        *_small_letters(sheet, small, y + height),
        *(_broken(sheet, y + height / 2) if squeeze < 1 else ()),
    ]
    return _Band(items, y + height + sheet.px(_LETTERS if small else 5))


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


def _piece_items(sheet: _Sheet, piece: _Piece) -> Iterator[Item]:
    corners = _rectangle(piece.left, piece.top, piece.right, piece.bottom)
    yield Area(corners, sheet.fabric, None, AreaKind.PIECE, 1)
    if piece.fits(sheet.pixel):
        middle = ((piece.left + piece.right) / 2, (piece.top + piece.bottom) / 2)
        yield Letter(middle, piece.letter)


def _small_letters(sheet: _Sheet, small: Sequence[_Piece], bottom: float) -> Iterator[Item]:
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


def _trimmings(sheet: _Sheet, pieces: Sequence[_Piece], bottom: float) -> Iterator[Item]:
    """What is trimmed off below pieces that are not as high as the strip."""
    for (left, right), column in groupby(pieces, key=lambda piece: (piece.left, piece.right)):
        lowest = max(piece.bottom for piece in column)
        if bottom - lowest > 1e-9:
            yield from _left_over(sheet, left, lowest, right - left, bottom - lowest)


def _left_over(sheet: _Sheet, x: float, y: float, width: float, height: float) -> Iterator[Item]:
    if width <= 0:
        return
    corners = _rectangle(x, y, x + width, y + height)
    yield Area(corners, kind=AreaKind.OFFCUT, layer=1)
    for stretch in hatch_lines(corners, 45, sheet.px(_HATCH)):
        yield Line(stretch, LineKind.LEADER)


def _selvages(sheet: _Sheet, y: float, height: float) -> Iterator[Item]:
    """The selvages at both ends of a strip; they are cut off and not counted in the width."""
    edge = sheet.px(_SELVAGE)
    for left in (-edge, sheet.width):
        corners = _rectangle(left, y, left + edge, y + height)
        yield Area(corners, sheet.fabric, None, AreaKind.CLOTH)


def _broken(sheet: _Sheet, y: float) -> Iterator[Item]:
    """A gap with torn edges: the strip is taller than it is drawn."""
    edge, tooth = sheet.px(_SELVAGE + 3), sheet.px(4)
    count = 24
    xs = [-edge + (sheet.width + 2 * edge) * i / count for i in range(count + 1)]
    upper = [(x, y - tooth + (tooth if i % 2 else -tooth) / 2) for i, x in enumerate(xs)]
    lower = [(x, py + 2 * tooth) for x, py in upper]
    yield Area((*upper, *reversed(lower)), kind=AreaKind.CLOTH, layer=3)


def _run(sheet: _Sheet, joined: Joined, top: float) -> _Band:
    """Strips joined end to end, and the lengths cut from the run; one strip high, not to scale."""
    y, bottom = top + sheet.px(_HEADING), top + sheet.px(_HEADING + _RUN)
    shown = min(joined.run, _LONGEST_RUN * sheet.plan.width)
    text = wrapped(run_cuts(sheet.subject, joined), sheet.room, TextKind.CAPTION)
    after = bottom + sheet.px(6)
    items = [
        _flush(sheet, run_heading(joined), top, TextKind.LABEL),
        *_lengths(sheet, joined, shown, (y, bottom)),
        *_seams(sheet, joined, shown, (y, bottom)),
        *(_torn(sheet, y, bottom) if shown < joined.run else ()),
        _flush(sheet, text, after, TextKind.CAPTION),
    ]
    lines = text.count("\n") + 1
    return _Band(items, after + sheet.px(lines * _LINE + _AFTER))


def _lengths(
    sheet: _Sheet, joined: Joined, shown: Fraction, level: tuple[float, float]
) -> Iterator[Item]:
    y, bottom = level
    scale = sheet.width / float(shown)
    seams = _seam_places(sheet, joined, shown)
    for index in range(joined.count):
        left = float(index * joined.length) * scale
        right = min(float((index + 1) * joined.length) * scale, sheet.width)
        if left >= sheet.width:
            return
        yield Area(_rectangle(left, y, right, bottom), sheet.fabric, None, AreaKind.PIECE, 1)
        ends = [left, *(x for x in seams if left < x < right), right]
        free, x = max((b - a, (a + b) / 2) for a, b in pairwise(ends))
        if letter_fits(free, sheet.pixel, letter_of(joined.letter)):
            yield Letter((x, (y + bottom) / 2), letter_of(joined.letter))
    used = float(joined.count * joined.length) * scale
    if shown == joined.run:
        yield from _left_over(sheet, used, y, sheet.width - used, bottom - y)


def _seams(
    sheet: _Sheet, joined: Joined, shown: Fraction, level: tuple[float, float]
) -> Iterator[Item]:
    y, bottom = level
    slant = sheet.px(_RUN) / 2 if joined.join == "diagonal" else 0.0
    for x in _seam_places(sheet, joined, shown):
        past = max(0.0, x + slant - sheet.width)
        up = past / (2 * slant) * (bottom - y) if past else 0.0
        yield Line(((x - slant, y), (x + slant - past, bottom - up)), LineKind.SEAM)


def _seam_places(sheet: _Sheet, joined: Joined, shown: Fraction) -> list[float]:
    """The middles of the seams; each strip but the first adds its length less the loss."""
    step = sheet.plan.width - joined.loss
    places = [index * step + joined.loss / 2 for index in range(1, joined.strips)]
    return [float(place / shown) * sheet.width for place in places if place < shown]


def _torn(sheet: _Sheet, y: float, bottom: float) -> Iterator[Item]:
    right, tooth = sheet.width, sheet.px(4)
    ys = [y + (bottom - y) * i / 4 for i in range(5)]
    edge = [(right - tooth * (1 + i % 2), py) for i, py in enumerate(ys)]
    far = right + sheet.px(3)
    yield Area((*edge, (far, bottom), (far, y)), kind=AreaKind.CLOTH, layer=3)


def _flush(sheet: _Sheet, text: str, top: float, kind: TextKind) -> Note:
    """Text flush with the left edge of the cloth, from ``top`` down."""
    lines = text.count("\n") + 1
    return Note((sheet.px(-7), top + sheet.px(lines * _LINE / 2)), text, Side.RIGHT, kind)


def _rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Place, ...]:
    return ((left, top), (right, top), (right, bottom), (left, bottom))
