"""From cloth units to the screen: how large, and where.

Goes in: what must be visible, and a width. Comes out: a `Frame` and screen places.
It draws nothing and knows no kinds of item.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from .scene import Place
from .style import MARGIN

SMALLEST = 0.2
"""Texts may squeeze the cloth down to this part of the width; after that the drawing widens."""


@dataclass(frozen=True)
class Reach:
    """A place in cloth units and how far something reaches from it, in screen units."""

    x: float
    y: float
    left: float = 0.0
    up: float = 0.0
    right: float = 0.0
    down: float = 0.0


@dataclass(frozen=True)
class Frame:
    """Scale in screen units per cloth unit, where cloth (0, 0) falls, and the whole size."""

    scale: float
    left: float
    top: float
    width: int
    height: int


def on_screen(place: Place, frame: Frame) -> Place:
    """Return a place in cloth units as a place on the screen."""
    return place[0] * frame.scale + frame.left, place[1] * frame.scale + frame.top


def fit(reaches: Sequence[Reach], width: int) -> Frame:
    """Return the largest frame of this width in which everything is visible.

    Raises:
        ValueError: the cloth to show has no width.
    """
    room = width - 2 * MARGIN
    scale = _scale(reaches, room)
    left = min(reach.x * scale - reach.left for reach in reaches)
    right = max(reach.x * scale + reach.right for reach in reaches)
    top = min(reach.y * scale - reach.up for reach in reaches)
    bottom = max(reach.y * scale + reach.down for reach in reaches)
    slack = max(0.0, (room - right + left) / 2)
    return Frame(
        scale=scale,
        left=MARGIN + slack - left,
        top=MARGIN - top,
        width=max(width, ceil(right - left + 2 * MARGIN - 0.001)),
        height=ceil(bottom - top + 2 * MARGIN - 0.001),
    )


def _scale(reaches: Sequence[Reach], room: float) -> float:
    """Return the scale at which everything is `room` wide.

    The width grows with the scale, in straight stretches that only get steeper, so Newton's
    method from the wide side arrives after a few steps and never passes the answer.
    """
    span = max(reach.x for reach in reaches) - min(reach.x for reach in reaches)
    if not span > 0:
        raise ValueError("a scene needs a box with a width")
    widest = scale = room / span
    while scale > SMALLEST * widest:
        first, last = _outermost(reaches, scale)
        excess = (last.x - first.x) * scale + first.left + last.right - room
        if excess <= 1e-6:
            return scale
        if last.x <= first.x:
            break
        scale -= excess / (last.x - first.x)
    return SMALLEST * widest


def _outermost(reaches: Sequence[Reach], scale: float) -> tuple[Reach, Reach]:
    first = min(reaches, key=lambda reach: reach.x * scale - reach.left)
    last = max(reaches, key=lambda reach: reach.x * scale + reach.right)
    return first, last
