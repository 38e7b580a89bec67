"""Small patterns whose seams meet, written as their writers would write them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from pieceproof.bench.nesting import Lying, meetings
from pieceproof.compile import Sized, compile_pattern
from pieceproof.published import Publication

HEAD = """\
name: Towpath
kind: sampler
summary: A sampler of seams.
measure: inch
seam: 1/4
fabrics:
  ground: {called: background, value: light}
  heart: {called: hearts, value: dark}
cloths:
  mist: {name: Mist, colour: "#eceae1"}
  slate: {name: Slate, colour: "#3b5166"}
colourways:
  low-water: {name: Low Water, parts: {ground: mist, heart: slate}}
sizes: {only: {label: Only}}
"""

NINE_PATCH = """\
blocks:
  nine:
    rows: [[heart, ground, heart], [ground, heart, ground], [heart, ground, heart]]
    columns: [2, 2, 2]
    heights: [2, 2, 2]
"""

PINWHEEL = """\
units:
  blade: {method: half-square triangles, size: 3, top left: ground, bottom right: heart}
blocks:
  mill:
    rows: [[blade turned 1, blade turned 2], [blade, blade turned 3]]
"""

CHEVRONS = """\
units:
  blade: {method: half-square triangles, size: 3, top left: ground, bottom right: heart}
blocks:
  zigzag:
    rows: [[blade, blade turned 1, blade, blade turned 1]]
"""


def setting(block: str, across: int = 1, down: int = 1, layout: str = "straight") -> str:
    """A setting of one block, repeated."""
    sides = ", sides: ground" if layout == "on point" else ""
    return (
        f"setting: {{layout: {layout}, rows: [[{block}]], across: {across}, down: {down}{sides}}}\n"
    )


def published(*parts: str) -> Sized:
    """The only size of a pattern of these parts; a problem is a mistake of the test."""
    text = HEAD + "".join(parts)
    pattern = compile_pattern("towpath", {"pattern.yaml": text.encode()})
    assert not pattern.problems, pattern.problems
    (size,) = pattern.sizes
    return size


def lying(publication: Publication, makes: Sequence[str] = ()) -> Counter[Lying]:
    """How seams that meet lie, in all of the pattern or in some makes."""
    count: Counter[Lying] = Counter()
    for meeting in meetings(publication):
        if not makes or meeting.make in makes:
            count[meeting.lying] += meeting.times
    return count
