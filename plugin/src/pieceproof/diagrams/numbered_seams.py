"""The seams of what is sewn, with the numbers by which the writer may settle their pressing.

In: a subject. Out: a scene for each thing that has numbered seams, and the width in CSS pixels at
which its numbers stand clear of each other. The numbers are those of `pressing_choices`; where a
seam lies is found by the bench.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import hypot, inf

from pieceproof.bench.seams_shown import SewnIn, Stretch, seams_shown
from pieceproof.bench.sewing import Shop
from pieceproof.bench.table import cloth
from pieceproof.diagrams import words
from pieceproof.diagrams.legible import PHONE, not_tall, scale_of, settled
from pieceproof.diagrams.subject import Subject, area
from pieceproof.drawing.marks import text_block
from pieceproof.drawing.scene import (
    AreaKind,
    Box,
    Item,
    Letter,
    Line,
    LineKind,
    Note,
    Place,
    Scene,
    Side,
    TextKind,
)
from pieceproof.inside_seams import inside_seams
from pieceproof.methods import method_named
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.pressing_choices import Pressed, choosable, name_in_file, numbered
from pieceproof.published import Make, MakeKind, Picture
from pieceproof.steps import AssembleOnPoint

SEAMS_OF = "seams of "
_APART = 26.0
_CLEAR = 1.5
"""From the middle of one number to that of the next, in pixels."""
_WIDEST, _WIDER = 1600, 40
_SAME = 1e-6
_SHARES = (1 / 2, 3 / 8, 5 / 8, 1 / 4, 3 / 4, 1 / 8, 7 / 8)
_LEVEL, _RISING = (1.0, 0.0), (1.0, -1.0)


@dataclass(frozen=True)
class Plate:
    """A scene, and the width in CSS pixels that it is drawn for."""

    scene: Scene
    width: int


def seam_plates(subject: Subject) -> Mapping[str, Plate]:
    """``seams of star``, ``seams of setting``: by what the file calls them, in sewing order."""
    plates: dict[str, Plate] = {}
    for make in subject.publication.makes:
        name = name_in_file(subject.design, make.name)
        if SEAMS_OF + name not in plates and not make.name.endswith(SET_B):
            seams = numbered_seams(subject, make)
            if seams:
                plates[SEAMS_OF + name] = _plate(subject, make, name, seams)
    return plates


def numbered_seams(subject: Subject, make: Make) -> Mapping[str, tuple[Stretch, ...]]:
    """Where each seam with a number lies in the finished make, by its key in the file."""
    thing = _pressed(make)
    keys = numbered(thing) if thing else ()
    if not keys:
        return {}
    whole = {
        centre.name: cloth("", "", centre.width, centre.height)
        for centre in subject.publication.makes
        if centre.kind is MakeKind.CENTRE
    }
    shop = Shop({**whole, **subject.things}, subject.publication.seam)
    found: dict[str, tuple[Stretch, ...]] = {}
    numbers = {
        step: number
        for number, seam in enumerate(inside_seams(make.steps), start=1)
        for step in seam.steps
    }
    for seam, stretches in seams_shown(make, shop).items():
        key = _key(make, thing, seam, numbers)
        found[key] = found.get(key, ()) + stretches
    return {key: found[key] for key in keys if key in found}


def _pressed(make: Make) -> Pressed | None:
    method = method_named(make.method)
    return choosable(make.steps, method.pressing if method else None)


def _key(make: Make, thing: Pressed | None, seam: SewnIn, numbers: Mapping[int, int]) -> str:
    """The mirror image of a thing counts its rows' seams from the right."""
    if seam.number == 0:
        return f"seam {numbers.get(seam.step, 0)}"
    if seam.row == 0:
        return f"between {seam.number}"
    assert thing is not None
    mirrored = make.name.endswith(MIRRORED)
    number = thing.rows[seam.row - 1] + 1 - seam.number if mirrored else seam.number
    return f"row {seam.row} seam {number}"


def _plate(
    subject: Subject, make: Make, name: str, seams: Mapping[str, tuple[Stretch, ...]]
) -> Plate:
    """Widened until numbers and words stand clear of each other."""

    def build(pixel: float) -> Scene:
        return _scene(subject, make, name, seams, _APART * pixel)

    for width in range(PHONE, _WIDEST, _WIDER):
        scene = settled(build, make.width, width)
        if _is_clear(scene, scale_of(scene, width)):
            break
    return Plate(scene, width)


def _scene(
    subject: Subject,
    make: Make,
    name: str,
    seams: Mapping[str, tuple[Stretch, ...]],
    near: float,
) -> Scene:
    """``near`` is as far as numbers should at least be apart, in cloth units."""
    picture = subject.drawing.pictures[make.name]
    runs = {key: _runs(stretches) for key, stretches in seams.items()}
    on_point = any(isinstance(step, AssembleOnPoint) for step in make.steps)
    shown = (area(subject, p.fabric, p.outline, AreaKind.PATCH, p.layer) for p in picture.patches)
    lines = (Line(run, LineKind.SEAM) for found in runs.values() for run in found)
    sides = _sides(runs, picture, _RISING if on_point else _LEVEL)
    return not_tall(
        Scene(
            f"{name}, its seams by number",
            f"{_told(make, seams)} It shows {words.faces_in_words(subject, make.name)}.",
            Box(0, 0, picture.width, picture.height),
            (*shown, *lines, *_numbers(runs, near), *sides),
        )
    )


def _told(make: Make, seams: Mapping[str, tuple[Stretch, ...]]) -> str:
    thing = _pressed(make)
    if thing is not None and thing.inside:
        told = (f"Seam {n} sews {what}." for n, what in enumerate(thing.inside, start=1))
        return " ".join(told)
    return words.sentence(words.series(seams))


def _is_clear(scene: Scene, scale: float) -> bool:
    boxes = []
    for item in scene.items:
        if isinstance(item, Letter | Note):
            block = text_block(item)
            x, y = float(item.at[0]) * scale + block.dx, float(item.at[1]) * scale + block.dy
            boxes.append((x, y, block.width / 2 + _CLEAR, block.height / 2 + _CLEAR))
    return all(
        abs(x - u) >= wide + half or abs(y - v) >= tall + high
        for (x, y, wide, tall), (u, v, half, high) in combinations(boxes, 2)
    )


Run = tuple[Place, ...]


def _runs(stretches: Iterable[Stretch]) -> tuple[Run, ...]:
    """Stretches that follow each other as one line with all their ends."""
    left = [tuple((float(x), float(y)) for x, y in stretch) for stretch in stretches]
    runs: list[Run] = []
    while left:
        run = left.pop(0)
        while True:
            after = next((s for s in left if _meet(run[-1], s[0]) or _meet(run[-1], s[1])), None)
            before = next((s for s in left if _meet(run[0], s[0]) or _meet(run[0], s[1])), None)
            if after is not None:
                left.remove(after)
                run = (*run, after[1] if _meet(run[-1], after[0]) else after[0])
            elif before is not None:
                left.remove(before)
                run = (before[0] if _meet(run[0], before[1]) else before[1], *run)
            else:
                break
        runs.append(run)
    return tuple(runs)


def _meet(one: Place, other: Place) -> bool:
    return _far(one, other) < _SAME


def _far(one: Place, other: Place) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _numbers(runs: Mapping[str, Sequence[Run]], near: float) -> Iterator[Item]:
    """A number on every run, but between rows, where it stands beside the whole."""
    taken: list[Place] = []
    for key, found in runs.items():
        for run in found if not key.startswith("between") else ():
            taken.append(_place_on(run, taken, near))
            yield Letter(taken[-1], key.rpartition(" ")[2], TextKind.STEP)


def _place_on(run: Run, taken: Sequence[Place], near: float) -> Place:
    """On the longest straight part of a seam, in its middle or where no other number is near.

    Other seams end where two parts meet, so a number within one belongs to this seam.
    """
    (a, b), (c, d) = _longest(run)
    places = [(a + share * (c - a), b + share * (d - b)) for share in _SHARES]
    room = [min((_far(place, other) for other in taken), default=inf) for place in places]
    clear = (place for place, far in zip(places, room, strict=True) if far >= near)
    return next(clear, places[room.index(max(room))])


def _longest(run: Run) -> tuple[Place, Place]:
    """The longest straight part; of several alike the middle one."""
    parts = list(pairwise(run))
    longest = max(_far(*part) for part in parts)
    alike = [part for part in parts if _far(*part) > 0.98 * longest]
    return alike[(len(alike) - 1) // 2]


def _sides(runs: Mapping[str, Sequence[Run]], picture: Picture, way: Place) -> Iterator[Item]:
    """The names of rows where they start, of the seams between them where they end."""
    rows: dict[str, Place] = {}
    for key, found in runs.items():
        if key.startswith("row"):
            (a, b), (c, d) = _longest(found[0])
            rows.setdefault(key.partition(" seam")[0], ((a + c) / 2, (b + d) / 2))
        if key.startswith("between"):
            ends = (end for run in found for end in run)
            end = max(ends, key=lambda at: at[0] * way[0] + at[1] * way[1])
            yield _beside(key, end, way, picture)
    for row, start in rows.items():
        yield _beside(row, start, (-way[0], -way[1]), picture)


def _beside(text: str, start: Place, way: Place, picture: Picture) -> Note:
    """A text at the edge that one comes to from a place, going this way."""
    wide, tall = float(picture.width), float(picture.height)
    across = ((wide if way[0] > 0 else 0.0) - start[0]) / way[0]
    down = ((tall if way[1] > 0 else 0.0) - start[1]) / way[1] if way[1] else inf
    far = min(across, down)
    if across <= down:
        side = Side.RIGHT if way[0] > 0 else Side.LEFT
    else:
        side = Side.BELOW if way[1] > 0 else Side.ABOVE
    at = (start[0] + far * way[0], start[1] + far * way[1])
    return Note(at, text, side, TextKind.CAPTION)
