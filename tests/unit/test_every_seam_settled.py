"""The writer settles any seam: of units of every method, parts of units, and borders.

One pattern has them all; what is settled must stand in the steps, in the words and on the bench.
"""

from __future__ import annotations

from functools import cache

import pytest

from pieceproof.bench.nesting import Lying
from pieceproof.compile import Pattern, Sized, compile_pattern
from pieceproof.inside_seams import inside_seams
from pieceproof.steps import Press

DESIGN = """\
name: Every Seam
kind: sampler
summary: Units of straight seams in one row.
measure: inch
seam: 1/4
fabrics:
  ground: {called: background, value: light}
  dark: {called: darks, value: dark}
  warm: {called: warm ones, value: medium}
cloths:
  mist: {name: Morning Mist, colour: "#eceae1"}
  slate: {name: Wet Slate, colour: "#33475b"}
  clay: {name: Bank Clay, colour: "#c26d4a"}
colourways:
  plain: {name: Plain, parts: {ground: mist, dark: slate, warm: clay}}
sizes: {only: {label: Only}}
units:
  goose: {method: flying geese, size: 6 x 3, goose: dark, sky: ground}
  gander: {method: flying geese four at a time, size: 6 x 3, goose: dark, sky: ground}
  barn:
    method: stitched corners
    size: 6 x 6
    fabric: warm
    corners:
      top left: {fabric: ground, leg: 2}
      bottom right: {fabric: dark, leg: 2}
  cabin:
    method: log cabin
    centre: warm
    centre size: 2 x 2
    light: {fabrics: [ground], widths: [2]}
    dark: {fabrics: [dark], widths: [2]}
  steps:
    method: courthouse steps
    centre rows: [[warm, ground], [ground, warm]]
    centre size: 2 x 2
    light: {fabrics: [ground], widths: [2]}
    dark: {fabrics: [dark], widths: [2]}
  ring:
    method: partial seams
    centre: warm
    centre size: 2 x 2
    top: {fabric: dark, width: 2}
    right: {fabric: ground, width: 2}
    bottom: {fabric: dark, width: 2}
    left: {fabric: ground, width: 2}
  glass:
    method: quarter-square triangles
    size: 6
    top: ground
    right: dark
    bottom: ground
    left: dark
  quarters:
    method: quarter-square triangles
    size: 6
    top: ground
    right: dark
    bottom: warm
    left: dark
  lantern: {method: square in square, size: 6, centre side: 4 1/8, centre: warm, corners: dark}
  rail:
    method: strip sets
    rows: [[dark, warm, ground]]
    columns: [2]
    heights: [6]
  chain:
    method: strip sets
    rows: [[dark, ground, dark], [ground, dark, ground], [dark, ground, dark]]
    columns: [2]
    heights: [2]
blocks:
  skein: {rows: [[goose], [gander]]}
setting:
  layout: straight
  rows: [[skein, barn, cabin, steps, ring, glass, quarters, lantern, rail, chain]]
borders:
  - {fabric: warm, width: 2, cornerstones: dark}
"""


@cache
def compiled(pressing: str) -> Pattern:
    text = DESIGN + (f"pressing: {{{pressing}}}\n" if pressing else "")
    return compile_pattern("every-seam", {"pattern.yaml": text.encode()})


def sewn(pressing: str) -> Sized:
    pattern = compiled(pressing)
    told = [p for p in pattern.problems if p.code.startswith(("pressed", "bench"))]
    assert not told
    return pattern.sizes[0]


def presses(sized: Sized, name: str) -> list[Press]:
    (make,) = (make for make in sized.publication.makes if make.name == name)
    return [seam.press for seam in inside_seams(make.steps)]


def words(sized: Sized, name: str) -> str:
    return " ".join(next(i.steps for i in sized.instructions if i.make.name == name))


SEAMS = {
    "goose": 2,
    "gander": 2,
    "barn": 2,
    "cabin": 4,
    "steps": 4,
    "ring": 4,
    "glass": 2,
    "quarters": 3,
    "lantern": 4,
    "rail": 2,
    "chain segment 1": 2,
}


@pytest.mark.parametrize(
    ("word", "press", "told"),
    [
        ("to the added", Press.ONTO_ADDED, "toward"),
        ("from the added", Press.ONTO_BASE, "away from"),
        ("open", Press.OPEN, "open"),
    ],
)
def test_all_seams_of_every_unit_go_as_settled(word: str, press: Press, told: str) -> None:
    settled = ", ".join(f"{name}: {{seams: {word}}}" for name in (*SEAMS, "borders"))
    sized = sewn(settled)
    for name, count in SEAMS.items():
        assert presses(sized, name) == [press] * count, name
        sides = name in ("rail", "chain segment 1") and press is Press.ONTO_BASE
        assert ("toward" if sides else told) in words(sized, name), name
    assert presses(sized, "top") == [press] * 8
    assert told in words(sized, "top")


@pytest.mark.parametrize("name", SEAMS)
def test_one_seam_can_be_settled_by_itself(name: str) -> None:
    usual = presses(sewn(""), name)
    every = ", ".join(f"{one}: {{seam {count}: open}}" for one, count in SEAMS.items())
    sized = sewn(every)
    assert presses(sized, name) == [*usual[:-1], Press.OPEN]
    assert "open" in words(sized, name)


def test_a_pieced_centre_and_the_rows_of_a_unit_too() -> None:
    sized = sewn("steps centre: {rows: open, between: up}, chain: {between 1: up, between 2: open}")
    assert "Press the seams of every row open." in words(sized, "steps centre")
    assert "Press this seam up." in words(sized, "steps centre")
    assert "below row 1 up" in words(sized, "chain")
    assert Lying.OPEN in {meeting.lying for meeting in sized.meetings}


def test_borders_are_told_seam_by_seam() -> None:
    """Left, right, two posts and the top, two posts and the bottom."""
    sized = sewn("borders: {seam 1: open, seam 3: to the added, seam 8: from the added}")
    told = words(sized, "top")
    assert "Sew one to each side. Press in the order of sewing: open; toward the border." in told
    assert "toward the post; toward the strip; toward the strip; toward the strip" in told
    assert "Press in the order of sewing: toward the border; away from the border." in told


@pytest.mark.parametrize(
    ("pressing", "expected"),
    [
        ("goose: {seam 3: open}", "`seam 1` (top left to base), `seam 2` (top right to base)"),
        ("ring: {seam 5: open}", "`seam 1` (top to centre)"),
        ("chain segment 1: {rows: open}", "or `seam` for all by value"),
        ("ground: {seams: open}", "`borders` where there are any"),
    ],
)
def test_what_is_not_there_is_told_with_what_there_is(pressing: str, expected: str) -> None:
    (problem,) = compiled(pressing).problems
    assert problem.code in ("pressed-no-seam", "pressed-nothing")
    assert expected in problem.expected
