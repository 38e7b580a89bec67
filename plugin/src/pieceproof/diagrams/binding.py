"""How strips of a binding are joined, and how it turns a corner.

In: a design with a binding, its seam allowance as text. Out: a scene of four stages, not to scale:
the same for every size, since a binding is sewn on in the same way whatever it goes round.
"""

from __future__ import annotations

from collections.abc import Sequence

from pieceproof.diagrams.legible import wrapped
from pieceproof.diagrams.subject import WRONG_SIDE, values
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
    Note,
    Point,
    Scene,
    Side,
    TextKind,
    shifted,
)
from pieceproof.model import BindingFold, Design

_ACROSS, _DOWN = 172, 204
"""From one stage to the next, in pixels of a drawing 360 wide: what is drawn has no size."""
_TOP, _RIGHT, _BROAD, _SEAM = 40, 120, 24, 8
"""Upper and right edge of the work, how broad the strip is, its seam allowance."""
_CAPTION_AT = 138
_CAPTION_WIDE = 132.0
_LINE = 17.0


def binding_corner(design: Design, seam: str) -> Scene | None:
    """The four stages; None where the pattern leaves the edge to its maker."""
    if design.binding is None:
        return None
    strip = _Strip(design)
    told = (
        "Join ends at a right angle, corner to corner",
        f"Stop {seam} before the corner",
        "Fold the strip up, away from the corner",
        "Fold it down; sew on from the edge",
    )
    drawn = (_joined(strip), _stopped(strip), _folded_up(strip), _folded_down(strip))
    stages = [
        Group([*items, *_caption(number, words)], shifted(_ACROSS * (at % 2), _DOWN * (at // 2)))
        for at, (number, items, words) in enumerate(zip(range(1, 5), drawn, told, strict=True))
    ]
    nexts = [_next(0), _next(_DOWN)]
    desc = " ".join(f"{number}: {words}." for number, words in enumerate(told, 1))
    return Scene("Binding, joined and taken round a corner", desc, _BOX, [*stages, *nexts])


_BOX = Box(-6, 24, _ACROSS + 160, _DOWN + 152)


class _Strip:
    """What the strip shows upwards: as it is sewn on, and where it is folded over."""

    def __init__(self, design: Design) -> None:
        assert design.binding is not None
        fabric = design.binding.fabric
        self._value = values(design)[fabric]
        self.right = str(fabric)
        self.wrong = fabric + WRONG_SIDE
        double = design.binding.fold is BindingFold.DOUBLE
        self.sewn = self.right if double else self.wrong

    def area(self, points: Sequence[Point], cloth: str, layer: int) -> Area:
        """A part of the strip."""
        value = self._value if cloth == self.right else None
        return Area(points, cloth, value, AreaKind.PIECE, layer)


def _joined(strip: _Strip) -> list[Item]:
    """One end on the other: the seam lets the second strip go on in the line of the first."""
    lower = ((0, 30), (100, 30), (100, 62), (0, 62))
    upper = ((68, 30), (100, 30), (100, 122), (68, 122))
    return [
        strip.area(lower, strip.right, 1),
        strip.area(upper, strip.wrong, 2),
        Line(((68, 30), (100, 62)), LineKind.SEAM),
        Line(((77, 30), (100, 53)), LineKind.CUT),
    ]


def _stopped(strip: _Strip) -> list[Item]:
    along = ((0, _TOP), (_RIGHT + 26, _TOP), (_RIGHT + 26, _TOP + _BROAD), (0, _TOP + _BROAD))
    return [_work(), strip.area(along, strip.sewn, 1), _first_seam(_RIGHT - _SEAM)]


def _folded_up(strip: _Strip) -> list[Item]:
    """The fold runs at 45 degrees from the corner; the loose part goes on from the right edge."""
    inner = _RIGHT - _BROAD
    up = ((inner, _TOP + _BROAD), (_RIGHT, _TOP), (_RIGHT, -10), (inner, -10))
    return [
        _work(),
        strip.area(_to_the_fold(), strip.sewn, 1),
        strip.area(up, strip.right, 2),
        _first_seam(inner),
    ]


def _folded_down(strip: _Strip) -> list[Item]:
    """The second fold lies on the upper edge, the strip on the right one."""
    inner = _RIGHT - _BROAD
    down = ((inner, _TOP), (_RIGHT, _TOP), (_RIGHT, 122), (inner, 122))
    second = ((_RIGHT - _SEAM, _TOP), (_RIGHT - _SEAM, 122))
    return [
        _work(),
        strip.area(_to_the_fold(), strip.sewn, 1),
        strip.area(down, strip.sewn, 2),
        _first_seam(inner),
        Line(second, LineKind.SEAM),
    ]


def _work() -> Area:
    """The quilted work, its upper right corner."""
    return Area(((0, _TOP), (_RIGHT, _TOP), (_RIGHT, 122), (0, 122)), None, None, AreaKind.CLOTH)


def _to_the_fold() -> Sequence[Point]:
    return ((0, _TOP), (_RIGHT, _TOP), (_RIGHT - _BROAD, _TOP + _BROAD), (0, _TOP + _BROAD))


def _first_seam(to: int) -> Line:
    """As far as it is seen."""
    return Line(((0, _TOP + _SEAM), (to, _TOP + _SEAM)), LineKind.SEAM)


def _caption(number: int, words: str) -> list[Item]:
    text = wrapped(words, _CAPTION_WIDE, TextKind.CAPTION)
    middle = _CAPTION_AT + text.count("\n") * _LINE / 2
    return [
        Letter((5, _CAPTION_AT), str(number), TextKind.STEP),
        Note((12, middle), text, Side.RIGHT, TextKind.CAPTION),
    ]


def _next(y: float) -> Arrow:
    return Arrow((_ACROSS - 24, y + 80), (_ACROSS - 8, y + 80), ArrowKind.NEXT)
