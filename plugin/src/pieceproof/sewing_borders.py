"""How borders are cut and sewn: strips, cornerstones, mitred strips, and pieced sides.

In: a border, the finished size inside it and the workroom. Out: its cuts by slot and its steps,
from a top on the table under the name `TOP` to the same with the border on. Sizes on the
drawing are those of `borders`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.borders import end_name, side_name
from pieceproof.lengths import ceil_to, square_root
from pieceproof.methods.method import Cut, Workroom, cut_finished
from pieceproof.model import (
    AnyBorder,
    Border,
    BorderOrder,
    Design,
    Measure,
    MitredBorder,
    PiecedBorder,
    Size,
)
from pieceproof.problems import Problem
from pieceproof.steps import Join, JoinMitred, Press, Side, Step, Take
from pieceproof.ways import Way, allowances, exactly

EXTRA: Mapping[Measure, Fraction] = {
    # Beyond the outer edge; the trade adds 1 to 6 in to a mitred strip: common practice.
    Measure.INCH: Fraction(2),
    Measure.CENTIMETRE: Fraction(5),
}


@dataclass(frozen=True)
class BorderWork:
    """What one border needs: pieces by slot, and steps that start from ``top`` and end in it."""

    cuts: Mapping[str, Cut]
    steps: tuple[Step, ...]


def sew_border(
    number: int, border: AnyBorder, inner: Size, design: Design, room: Workroom, top: str
) -> BorderWork:
    """The cuts and steps of border ``number`` from the inside."""
    name = f"border {number}"
    match border:
        case Border():
            return _butted(name, border, inner, room, top)
        case MitredBorder():
            extra = EXTRA[design.measure] if border.extra is None else border.extra
            return _mitred(name, border, inner, extra, room, top)
        case PiecedBorder():
            return _pieced(number, room, top)


def mitre_problem(border: MitredBorder, design: Design) -> Problem | None:
    """A strip must reach past the mitre's seam by the seam allowance, measured square to it.

    The mitre runs at 45 degrees to the outer edge of a strip, so the allowance reaches s root 2
    along that edge, at both ends; a strip that is 2 w + 2 s longer than the side inside it
    reaches the mitre's end exactly, and 2 s root 2 more is the least.
    """
    least = ceil_to(2 * design.seam * square_root(2), design.measure.step)
    if border.extra is None or border.extra >= least:
        return None
    show = design.measure.show
    return Problem(
        border.at["extra"],
        "mitre-too-short",
        f"mitred strips cut {show(border.extra)} longer than the border",
        f"at least {show(least)}, to leave a seam allowance at both mitres",
        f"write `extra: {show(max(least, EXTRA[design.measure]))}`, or delete it for the usual one",
    )


def _butted(name: str, border: Border, inner: Size, room: Workroom, top: str) -> BorderWork:
    w = border.width
    corners = border.cornerstones
    sides_first = border.order is BorderOrder.SIDES_FIRST or corners is not None
    tall = inner.height if sides_first else inner.height + 2 * w
    long = inner.width if corners or not sides_first else inner.width + 2 * w
    cuts = {
        slot: cut_finished(slot, fabric, size, room)
        for slot, fabric, size in (
            (f"{name} sides", border.fabric, Size(w, tall)),
            (f"{name} ends", border.fabric, Size(long, w)),
            *([(f"{name} corners", corners, Size(w, w))] if corners else []),
        )
    }
    sides = [
        s for side in (Side.LEFT, Side.RIGHT) for s in _strip(room, top, f"{name} sides", side)
    ]
    posts = f"{name} corners" if corners else ""
    ends = [
        s
        for side in (Side.TOP, Side.BOTTOM)
        for s in _strip(room, top, f"{name} ends", side, posts)
    ]
    return BorderWork(cuts, tuple(sides + ends if sides_first else ends + sides))


def _strip(room: Workroom, top: str, slot: str, side: Side, posts: str = "") -> list[Step]:
    """Sew a border strip to one side, after a cornerstone at each of its ends where there are."""
    item = f"{slot} {side.value}"
    steps: list[Step] = [Take(item, slot)]
    for end in (Side.LEFT, Side.RIGHT) if posts else ():
        post = f"{posts} {side.value} {end.value}"
        steps += [Take(post, posts), Join(item, post, end, room.seam, Press.ONTO_BASE)]
    return [*steps, Join(top, item, side, room.seam, Press.ONTO_ADDED)]


def _mitred(
    name: str, border: MitredBorder, inner: Size, extra: Fraction, room: Workroom, top: str
) -> BorderWork:
    """Inner side + 2 w + 2 s + extra, laid middle to middle; see `mitre_problem` for the least."""
    beyond = ceil_to(border.width + extra / 2, room.step)
    wide = cut_finished("", border.fabric, Size(border.width, border.width), room)
    cuts = {}
    for slot, side, lies_upright in (
        (f"{name} sides", inner.height, True),
        (f"{name} ends", inner.width, False),
    ):
        whole = side + 2 * room.seam + 2 * beyond
        across = (wide.needed_width, wide.width, wide.across)
        told = "twice the border's width and half the extra length, on the ruler"
        seams = allowances(2 * room.seam, room.seam)
        way = Way((exactly("side inside it", side), seams, exactly(told, 2 * beyond)))
        along = (whole, ceil_to(whole, room.step), way)
        width, height = (across, along) if lies_upright else (along, across)
        sides = (width[0], height[0], width[1], height[1])
        cuts[slot] = Cut(slot, border.fabric, *sides, None, width[2], height[2])
    items = {side: f"{name} {_PAIR[side]} {side.value}" for side in Side}
    takes = [Take(items[side], f"{name} {_PAIR[side]}") for side in Side]
    join = JoinMitred(
        top,
        items[Side.LEFT],
        items[Side.TOP],
        items[Side.RIGHT],
        items[Side.BOTTOM],
        beyond,
        beyond,
        room.seam,
        Press.ONTO_ADDED,
    )
    return BorderWork(cuts, (*takes, join))


_PAIR = {Side.LEFT: "sides", Side.RIGHT: "sides", Side.TOP: "ends", Side.BOTTOM: "ends"}


def _pieced(number: int, room: Workroom, top: str) -> BorderWork:
    """Sides, then ends with the corners; pressed away from the units, where it is less bulky."""
    steps: list[Step] = []
    for side, source, turn in (
        (Side.LEFT, side_name(number), 3),
        (Side.RIGHT, side_name(number), 1),
        (Side.TOP, end_name(number), 0),
        (Side.BOTTOM, end_name(number), 2),
    ):
        item = f"{source} {side.value}"
        steps += [Take(item, source, turn), Join(top, item, side, room.seam, Press.ONTO_BASE)]
    return BorderWork({}, tuple(steps))
