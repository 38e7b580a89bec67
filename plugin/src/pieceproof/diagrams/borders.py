"""Borders pulled off the centre they are sewn to.

In: a subject and a make of joinings. Out: a scene: the centre, the strips around it with their
letters, the order in which they are sewn, and pressing arrows. It knows no names of strips.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pieceproof.bench.table import turned
from pieceproof.diagrams import words
from pieceproof.diagrams.legible import letter_fits, settled
from pieceproof.diagrams.subject import (
    Subject,
    areas,
    called,
    piece_of,
    size,
)
from pieceproof.drawing.scene import (
    Area,
    AreaKind,
    Arrow,
    ArrowKind,
    Box,
    Group,
    Item,
    Letter,
    Line,
    LineKind,
    Place,
    Scene,
    TextKind,
    shifted,
)
from pieceproof.published import Make, Picture
from pieceproof.shapes import rectangle
from pieceproof.steps import Join, JoinMitred, Press, Side, Take

_GAP = 25.0
_POST_GAP = 5.0
_ARROW = 9.0
_ASIDE = 0.12


@dataclass(frozen=True)
class _Part:
    """A strip or post in its place, or the centre (no letter)."""

    letter: str
    source: str
    turn: int
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True)
class _Joined:
    """Parts joined so far and their extent."""

    parts: tuple[_Part, ...]
    x: float
    y: float
    width: float
    height: float

    def moved(self, dx: float, dy: float) -> _Joined:
        parts = tuple(replace(p, x=p.x + dx, y=p.y + dy) for p in self.parts)
        return replace(self, parts=parts, x=self.x + dx, y=self.y + dy)


@dataclass(frozen=True)
class _Seam:
    """One strip sewn to the centre: which side, in which order, and where it lies now."""

    order: int
    side: Side
    press: Press
    strip: _Joined


def borders(subject: Subject, make: Make, width: int) -> Scene:
    """The centre with all border strips pulled off."""
    return settled(lambda pixel: _scene(subject, make, pixel), make.width, width)


def _scene(subject: Subject, make: Make, pixel: float) -> Scene:
    joined, seams = _pulled_apart(subject, make, pixel)
    centre = joined.parts[0]
    items: list[Item] = [_centre(subject, centre)]
    for part in joined.parts[1:]:
        flat = turned(subject.things[part.source], part.turn)
        items.append(Group(areas(subject, flat.faces, AreaKind.PIECE), shifted(part.x, part.y)))
        if part.letter and letter_fits(min(part.width, part.height), pixel, part.letter):
            items.append(Letter(_middle(part), part.letter))
    for seam in seams:
        items += _seam_items(seam, pixel)
    return Scene(
        f"{make.name}, borders pulled off",
        _told(subject, make, seams),
        Box(joined.x, joined.y, joined.width, joined.height),
        items,
    )


def _pulled_apart(subject: Subject, make: Make, pixel: float) -> tuple[_Joined, Sequence[_Seam]]:
    """The strips in their places, strips of equal turn numbered alike."""
    table: dict[str, _Joined] = {}
    seams: list[_Seam] = []
    base = next(step.item for step in make.steps if isinstance(step, Take))
    for step in make.steps:
        if isinstance(step, Take):
            table[step.item] = _taken(subject, step)
        elif isinstance(step, Join):
            added = table.pop(step.added)
            gap = _GAP * pixel if step.item == base else _POST_GAP * pixel
            placed = _beside(table[step.item], added, step.side, gap)
            if step.item == base:
                order = _order(seams, step.side)
                seams.append(_Seam(order, step.side, step.press, placed))
            table[step.item] = _together(table[step.item], placed)
        elif isinstance(step, JoinMitred):
            order = seams[-1].order + 1 if seams else 1
            for side, name in _strips(step):
                placed = _beside(table[base], table.pop(name), side, _GAP * pixel)
                seams.append(_Seam(order, side, step.press, placed))
                table[base] = _together(table[base], placed)
    return table[base], seams


def _strips(step: JoinMitred) -> Iterator[tuple[Side, str]]:
    yield from ((Side.LEFT, step.left), (Side.RIGHT, step.right))
    yield from ((Side.TOP, step.top), (Side.BOTTOM, step.bottom))


def _taken(subject: Subject, step: Take) -> _Joined:
    piece = piece_of(subject, step.source)
    if step.source not in subject.things:
        picture = subject.drawing.pictures[step.source]
        seam = 2 * subject.publication.seam
        width, height = float(picture.width + seam), float(picture.height + seam)
    else:
        flat = turned(subject.things[step.source], step.turn)
        width, height = float(flat.width), float(flat.height)
    letter = piece.letter if piece else ""
    part = _Part(letter, step.source, step.turn, 0.0, 0.0, width, height)
    return _Joined((part,), 0.0, 0.0, width, height)


def _beside(base: _Joined, added: _Joined, side: Side, gap: float) -> _Joined:
    x = base.x + (base.width - added.width) / 2 - added.x
    y = base.y + (base.height - added.height) / 2 - added.y
    match side:
        case Side.LEFT:
            x = base.x - gap - added.width - added.x
        case Side.RIGHT:
            x = base.x + base.width + gap - added.x
        case Side.TOP:
            y = base.y - gap - added.height - added.y
        case Side.BOTTOM:
            y = base.y + base.height + gap - added.y
    return added.moved(x, y)


def _together(one: _Joined, other: _Joined) -> _Joined:
    x, y = min(one.x, other.x), min(one.y, other.y)
    right = max(one.x + one.width, other.x + other.width)
    bottom = max(one.y + one.height, other.y + other.height)
    return _Joined((*one.parts, *other.parts), x, y, right - x, bottom - y)


def _order(seams: Sequence[_Seam], side: Side) -> int:
    """Opposite strips sewn one after the other count as one step."""
    if not seams:
        return 1
    pair = {seams[-1].side, side}
    opposite = pair in ({Side.LEFT, Side.RIGHT}, {Side.TOP, Side.BOTTOM})
    alone = len([s for s in seams if s.order == seams[-1].order]) == 1
    return seams[-1].order + (0 if opposite and alone else 1)


def _centre(subject: Subject, part: _Part) -> Group:
    """The finished picture with its seam allowance round it as bare cloth."""
    picture: Picture = subject.drawing.pictures[part.source]
    seam = float(subject.publication.seam)
    patches = [
        Area(p.outline, p.fabric, subject.values[p.fabric], AreaKind.TOP, 1)
        for p in picture.patches
    ]
    edge = Area(rectangle(picture.width, picture.height), kind=AreaKind.PIECE)
    return Group((edge, *patches), shifted(part.x + seam, part.y + seam))


def _seam_items(seam: _Seam, pixel: float) -> Iterator[Item]:
    """The strip's letter outside it where there is no room inside, its order, its arrow."""
    strip = max(seam.strip.parts, key=lambda part: part.width * part.height)
    x, y = _middle(strip)
    ox, oy = _OUTWARD[seam.side]
    across = (strip.width if ox else strip.height) / 2
    for part in seam.strip.parts:
        if part.letter and not letter_fits(min(part.width, part.height), pixel, part.letter):
            yield from _outside(part, seam.side, pixel)
    along = -0.25 * (strip.height if ox else strip.width)
    disc = (x + along * abs(oy), y + along * abs(ox))
    yield Letter(disc, str(seam.order), TextKind.STEP)
    far = across + _GAP / 2 * pixel
    at = (x - ox * far - along * abs(oy), y - oy * far - along * abs(ox))
    yield _arrow(at, (ox, oy), seam.press, pixel)


def _outside(part: _Part, side: Side, pixel: float) -> Iterator[Item]:
    x, y = _middle(part)
    ox, oy = _OUTWARD[side]
    x, y = x + _ASIDE * part.width * abs(oy), y + _ASIDE * part.height * abs(ox)
    edge = (part.width if ox else part.height) / 2
    near, far = edge + 4 * pixel, edge + 12 * pixel
    yield Line(((x, y), (x + ox * near, y + oy * near)), LineKind.LEADER)
    yield Letter((x + ox * far, y + oy * far), part.letter)


def _arrow(at: Place, outward: Place, press: Press, pixel: float) -> Arrow:
    way = -1 if press is Press.ONTO_BASE else 1
    dx, dy = (way * _ARROW * pixel * v for v in outward)
    kind = ArrowKind.PRESS_OPEN if press is Press.OPEN else ArrowKind.PRESS
    return Arrow((at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy), kind)


def _middle(part: _Part) -> Place:
    return part.x + part.width / 2, part.y + part.height / 2


_OUTWARD = {Side.LEFT: (-1, 0), Side.RIGHT: (1, 0), Side.TOP: (0, -1), Side.BOTTOM: (0, 1)}


def _told(subject: Subject, make: Make, seams: Sequence[_Seam]) -> str:
    """Each pair of strips in the order it is sewn."""
    pairs: dict[int, list[_Seam]] = {}
    for seam in seams:
        pairs.setdefault(seam.order, []).append(seam)
    centre = next(step.source for step in make.steps if isinstance(step, Take))
    told = [f"the {centre} in the middle shows {words.faces_in_words(subject, centre)}"]
    for order, pair in pairs.items():
        sides: dict[str, list[str]] = {}
        for seam in pair:
            sides.setdefault(_strip(subject, seam), []).append(seam.side.value)
        sewn = (f"{strip} to the {words.series(where)}" for strip, where in sides.items())
        told.append(f"{order}: {words.series(sewn)}")
    if all(seam.press is Press.ONTO_ADDED for seam in seams):
        told.append("press every seam toward the strip just added")
    return " ".join(words.sentence(text) for text in told)


def _strip(subject: Subject, seam: _Seam) -> str:
    sources = dict.fromkeys(part.source for part in seam.strip.parts)
    return words.series(_strip_words(subject, source) for source in sources)


def _strip_words(subject: Subject, source: str) -> str:
    """A piece with its letter, or the name of a pieced side."""
    piece = piece_of(subject, source)
    if piece is None:
        return source
    cut = size(subject, piece.short, piece.long)
    return f"{source} ({called(subject, piece.fabric)}, {cut})"
