"""Holds a sewn thing against its drawing: outline, unfinished size, patch for patch.

In: the thing as it came off the bench and its picture. Out: disagreements. Patches must agree
exactly, corner for corner, once the outer seam allowance is cut back on all sides.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.table import Faces, Flat, is_rectangle, moved, pared
from pieceproof.bench.words import Disagreement, excess, length, size, size_excess
from pieceproof.lengths import Number
from pieceproof.published import Make, MakeKind, Picture
from pieceproof.shapes import Box, Polygon, bounds, canonical

_SHOWN = 3


@dataclass(frozen=True)
class _Area:
    """A fabric in a place, comparable."""

    fabric: str
    outline: Polygon
    layer: int


def compare(make: Make, thing: Flat, picture: Picture, seam: Fraction) -> Sequence[Disagreement]:
    """Where one finished thing differs from its published size and its picture."""
    if make.kind is MakeKind.TRIANGLE:
        return [*_wrong_size(make, thing)] or _wrong_patches(make, thing.faces, picture)
    outline = [*_wrong_outline(make, thing), *_wrong_picture_size(make, picture, seam)]
    visible = moved(pared(thing, seam, seam, seam, seam), -seam, -seam)
    return outline or _wrong_patches(make, visible, picture)


def _wrong_outline(make: Make, thing: Flat) -> Iterable[Disagreement]:
    wrong = [*_wrong_size(make, thing)]
    if not wrong and not is_rectangle(thing):
        wrong.append(Disagreement(make.name, 0, "", "", "a full rectangle", "another outline", ""))
    return wrong


def _wrong_size(make: Make, thing: Flat) -> Iterable[Disagreement]:
    found, expected = (thing.width, thing.height), (make.width, make.height)
    if found != expected:
        yield Disagreement(
            make.name, 0, "", "", f"{size(*expected)} unfinished", size(*found),
            size_excess(found, expected),
        )  # fmt: skip


def _wrong_picture_size(make: Make, picture: Picture, seam: Fraction) -> Iterable[Disagreement]:
    found = (make.width - 2 * seam, make.height - 2 * seam)
    expected = (picture.width, picture.height)
    if found != expected:
        yield Disagreement(
            make.name, 0, "", "", f"{size(*expected)} finished, as drawn", size(*found),
            size_excess(found, expected),
        )  # fmt: skip


def _wrong_patches(make: Make, visible: Faces, picture: Picture) -> Sequence[Disagreement]:
    areas = [_Area(face.fabric, canonical(face.outline), face.layer) for face in visible]
    letters = dict(zip(areas, (face.letter for face in visible), strict=True))
    sewn = Counter(areas)
    drawn = Counter(_Area(p.fabric, canonical(p.outline), p.layer) for p in picture.patches)
    missing, surplus = list((drawn - sewn).elements()), list((sewn - drawn).elements())
    pairs = _pairs(missing, surplus)
    found = [_wrong_patch(make, *pair, letters) for pair in pairs[:_SHOWN]]
    if len(pairs) > _SHOWN:
        count = f"{len(pairs)} of {len(picture.patches)} differ"
        found.append(Disagreement(make.name, 0, "", "", "every patch as drawn", count, ""))
    return found


def _pairs(
    missing: Sequence[_Area], surplus: Sequence[_Area]
) -> Sequence[tuple[_Area | None, _Area | None]]:
    """Each patch that should be there with the likeliest one that is there instead."""
    left, pairs = list(surplus), []
    for area in missing[:_SHOWN]:
        nearest = min(left, key=lambda other: _unlikeness(area, other), default=None)
        if nearest is not None:
            left.remove(nearest)
        pairs.append((area, nearest))
    others = missing[_SHOWN:]
    pairs += [(area, None) for area in others]
    return [*pairs, *((None, area) for area in left[len(others) :])]


def _unlikeness(area: _Area, other: _Area) -> Number:
    differences = _differences(bounds([other.outline]), bounds([area.outline]))
    total: Number = Fraction(0 if area.fabric == other.fabric else 1)
    for difference in differences:
        total = total + difference * difference
    return total


def _wrong_patch(
    make: Make, expected: _Area | None, found: _Area | None, letters: Mapping[_Area, str]
) -> Disagreement:
    return Disagreement(
        make.name, 0, "", letters.get(found, "") if found else "",
        _patch_words(expected) if expected else "nothing more",
        _patch_words(found) if found else "no such patch",
        _by(expected, found) if expected and found else "",
    )  # fmt: skip


def _patch_words(area: _Area) -> str:
    box = bounds([area.outline])
    return (
        f"a patch of {area.fabric or 'unnamed cloth'}, {size(box.width, box.height)}, "
        f"{length(box.left)} from the left and {length(box.top)} from the top"
    )


def _by(expected: _Area, found: _Area) -> str:
    if expected.outline == found.outline:
        return "the same place in another fabric"
    reach = _differences(bounds([found.outline]), bounds([expected.outline]))
    ways = (("right", "left"), ("low", "high"), ("right", "left"), ("low", "high"))
    parts = [
        f"its {side} {excess(difference, Fraction(0), f'too far {more}', f'too far {less}')}"
        for side, difference, (more, less) in zip(_SIDES, reach, ways, strict=True)
        if difference != 0
    ]
    return ", ".join(parts) or "the same extent with other corners"


def _differences(found: Box, expected: Box) -> tuple[Number, Number, Number, Number]:
    return (
        found.left - expected.left,
        found.top - expected.top,
        found.right - expected.right,
        found.bottom - expected.bottom,
    )


_SIDES = ("left", "top", "right", "bottom")
