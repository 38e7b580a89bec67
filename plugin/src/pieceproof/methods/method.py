"""What a construction method is: finished patches, pieces to cut, steps, units per round."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from typing import Any

from quicktions import Fraction

from pieceproof.lengths import Number, floor_to
from pieceproof.model import Design, Measure, Size, Unit, Value
from pieceproof.published import Arc, Numbering, Patch, Picture, Template
from pieceproof.shapes import Motion, bounds, mirror_left_right
from pieceproof.steps import Press, Step
from pieceproof.ways import UNTOLD, Way, allowances, allowances_on_ruler, exactly

MIRRORED = " mirrored"
"""Behind a unit's name: its left-right mirror image."""


SET_B = " set B"
"""Behind a name: the same, pressed the other way."""


class Pressing(Enum):
    """Which of two neighbours on a unit's edge has the allowance of the seam between them.

    The one that is sewn on later, later also among the method's patches; or the darker one, the
    later one where they are alike, and then the whole unit may be pressed the other way. By turns
    is as later, but of two alike either may be the later one. In steps: as the steps tell, where
    every patch is a piece of its own. A seam that the writer has settled goes as its step says.
    """

    LATER = "later"
    BY_TURNS = "by turns"
    DARKER = "darker"
    IN_STEPS = "in steps"


@dataclass(frozen=True)
class Workroom:
    """What a method needs to know of the pattern: its seam, its ruler, its fabrics' values.

    ``strip`` is how long strips are that are cut across the cloth. ``squaring`` is what truing one
    end of a set sewn of them takes off; the cloth has been trued when they were cut. ``ample`` is
    what a piece has more than the place it has to cover. Inches where nothing is said.
    """

    seam: Fraction
    step: Fraction
    values: Mapping[str, Value]
    strip: Fraction = Fraction(40)
    squaring: Fraction = Fraction(1, 2)
    ample: Fraction = Fraction(1, 2)


def workroom(design: Design) -> Workroom:
    """The workroom of one size of a pattern.

    Common practice: a plan for cloth of 40 in or 100 cm is safe for any; truing takes 1/2 in or
    1 cm; pieces for foundations are 1/2 in or 1 cm larger each way than what they must cover.
    """
    usual = design.measure.usual
    return Workroom(
        design.seam,
        design.measure.step,
        {name: fabric.value for name, fabric in design.fabrics.items()},
        design.usable_width or usual(Fraction(40), Fraction(100)),
        usual(Fraction(1, 2), Fraction(1)),
        usual(Fraction(1, 2), Fraction(1)),
    )


@dataclass(frozen=True)
class Cut:
    """A rectangle that a method asks for, as it lies in the unit: exact and on the ruler's grid.

    One with a ``template`` is the extent of that shape. ``across`` and ``down`` tell how its sides
    come about, ``oversize`` how much larger than needed its short side is cut on purpose.
    """

    slot: str
    fabric: str
    needed_width: Number
    needed_height: Number
    width: Fraction
    height: Fraction
    template: Template | None = None
    across: Way = UNTOLD
    down: Way = UNTOLD
    oversize: Fraction = Fraction(0)


@dataclass(frozen=True)
class Recipe:
    """How one round of a unit is made.

    ``Take`` steps name the cuts by their slots, ``Yield`` steps an extra by what follows the
    unit's name. ``parts`` are the recipes of the unit's parts, by what follows the unit's name;
    ``Take`` and ``Assemble`` steps name them so.
    """

    cuts: tuple[Cut, ...]
    each: int
    steps: tuple[Step, ...]
    parts: Mapping[str, Recipe] = field(default_factory=dict)


@dataclass(frozen=True)
class Fault:
    """Why a unit cannot be made at its size by its method, and which key to mend."""

    key: str
    found: str
    expected: str
    remedy: str


@dataclass(frozen=True)
class Remedy:
    """What gives the tips of a unit more room, and the key to mend."""

    key: str
    text: str


def no_fault(_unit: Unit, _measure: Measure, _seam: Fraction) -> None:
    """For methods that can make any size."""


def no_extras(_unit: Unit) -> tuple[Picture, ...]:
    """For methods whose rounds give nothing but the unit, and that sew it in one go."""
    return ()


def nothing_told(_unit: Unit, _pressed: Sequence[Press]) -> Mapping[frozenset[int], int]:
    """For methods whose rule of pressing says enough."""
    return {}


def none_alike(_picture: Picture) -> tuple[Unit, ...]:
    """For methods that are not compared with others."""
    return ()


def never_floating(_unit: Unit, _measure: Measure, _seam: Fraction, _least: Fraction) -> Remedy:
    """For methods whose tips end on the seam lines at any size."""
    return Remedy(
        "method",
        "no size gives these tips room; sew them by a method that lets them float, "
        "or leave out `tips`",
    )


@dataclass(frozen=True)
class Lesson:
    """What the handbook shows of a method: what it serves, and a unit as a pattern's file has it.

    The ``example`` is what stands below ``method`` in the file, in inches; its fabrics are mist,
    reed (light), clay (medium), slate and night (dark).
    """

    good_for: str
    example: str


@dataclass(frozen=True)
class Method:
    """One way to sew a unit.

    ``design`` is the class of its part of the file, ``size`` the finished size, ``patches`` the
    finished picture, ``recipe`` its making. ``fault`` says why a unit cannot be made so with this
    seam, or None. ``extras`` are pictures of what a round gives besides, ``parts`` of what is made
    first and counted by itself, such as segments of strip sets; each under the name that follows
    the unit's own. ``floating`` says how a unit gets this least clearance of its tips,
    ``pressing`` where the seams go that end on its edges; from how its seams are pressed, in
    sewing order, ``toward`` says it besides: of two patches, by their numbers, the number of the
    one that has the allowance. ``alike`` are
    units of this method that may show a picture of another one, in some turn; whoever asks
    compares the pictures. ``lesson`` is for the handbook.
    """

    name: str
    design: type[Unit]
    size: Callable[[Any], Size]
    patches: Callable[[Any], tuple[Patch, ...]]
    recipe: Callable[[Any, Workroom], Recipe]
    fault: Callable[[Any, Measure, Fraction], Fault | None]
    extras: Callable[[Any], tuple[Picture, ...]] = no_extras
    parts: Callable[[Any], tuple[Picture, ...]] = no_extras
    floating: Callable[[Any, Measure, Fraction, Fraction], Remedy] = never_floating
    pressing: Pressing = Pressing.IN_STEPS
    toward: Callable[[Any, Sequence[Press]], Mapping[frozenset[int], int]] = nothing_told
    alike: Callable[[Picture], Sequence[Unit]] = none_alike
    lesson: Lesson = field(kw_only=True)


def cut_by_ways(
    slot: str,
    fabric: str,
    ways: tuple[Way, Way],
    room: Workroom,
    template: Template | None = None,
) -> Cut:
    """A rectangle whose width and height come about in these ways."""
    across, down = ways
    width, height = across.on_ruler(room.step), down.on_ruler(room.step)
    return Cut(slot, fabric, across.exact, down.exact, width, height, template, across, down)


def cut_finished(slot: str, fabric: str, size: Size, room: Workroom) -> Cut:
    """A rectangle with a seam allowance on each side: finished + 2s."""
    seams = allowances(2 * room.seam, room.seam)
    across = Way((exactly("finished width", size.width), seams))
    down = Way((exactly("finished height", size.height), seams))
    return cut_by_ways(slot, fabric, (across, down), room)


def mirror_cut(cut: Cut) -> Cut:
    """The cut of the mirror image: a template is turned over, a rectangle stays as it is."""
    return cut if cut.template is None else replace(cut, template=_turned_over(cut.template))


def _turned_over(template: Template) -> Template:
    """The corners keep their marks, which are now numbered the other way round."""
    last = len(template.seam_lines)
    motion = mirror_left_right(bounds([template.cut]).width)
    others = dict(zip(Numbering, reversed(Numbering), strict=True))
    return Template(
        motion.polygon(template.cut),
        motion.polygon(template.seam_lines),
        template.allowance,
        tuple(_arc_over(arc, last, motion) for arc in template.arcs),
        others[template.numbering],
    )


def _arc_over(arc: Arc, corners: int, motion: Motion) -> Arc:
    first = corners - 1 - arc.last % corners
    last = first + arc.last - arc.first
    return replace(arc, first=first, last=last, centre=motion.point(arc.centre))


def cut_square(
    slot: str,
    fabric: str,
    finished: Number,
    addition: Number,
    room: Workroom,
    words: str = "finished side",
) -> Cut:
    """A square of ``finished``, told in ``words``, plus ``addition``.

    The addition is rounded up to the ruler's step, added, and the sum rounded up again, which is
    how the handbooks' 7/8 and 1 1/4 arise from a 1/4 in seam.
    """
    seams = allowances_on_ruler(addition, room.seam, room.step)
    way = Way((exactly(words, finished), seams))
    return cut_by_ways(slot, fabric, (way, way), room)


def off_the_ruler(
    key: str, sizes: Iterable[Fraction], measure: Measure, seam: Fraction
) -> Fault | None:
    """A fault for the first finished size that, with its seams, is not on the ruler's grid."""
    step, show = measure.step, measure.show
    for size in sizes:
        cut = size + 2 * seam
        if (cut / step).denominator != 1:
            low = floor_to(cut, step) - 2 * seam
            return Fault(
                key,
                f"a finished size of {show(size)}, to be cut at {show(cut)}",
                f"cut sizes in steps of {show(step)}",
                f"use {f'{show(low)} or ' if low > 0 else ''}{show(low + step)}",
            )
    return None


def press_to_darker(base: str, added: str, room: Workroom) -> Press:
    """Toward the darker fabric; toward the added one where they are alike."""
    order = (Value.LIGHT, Value.MEDIUM, Value.DARK)
    lighter = order.index(room.values[added]) < order.index(room.values[base])
    return Press.ONTO_BASE if lighter else Press.ONTO_ADDED
