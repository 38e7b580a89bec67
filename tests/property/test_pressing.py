"""Small grids: nothing that could nest is left to clash, by trying every way of pressing.

The bench judges every way; that it judges rightly is counted out for plain patches below.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise, product

from hypothesis import given, settings
from hypothesis import strategies as st
from nesting_samples import lying, published, setting

from pieceproof.bench.nesting import Lying
from pieceproof.methods.method import SET_B
from pieceproof.published import Make, Publication
from pieceproof.steps import SPUN, Assemble, pressed_other_way

UNITS = """\
units:
  blade: {method: half-square triangles, size: 2, top left: ground, bottom right: heart}
  pair: {method: strip sets, rows: [[ground, heart]], columns: [1, 1], heights: [2]}
"""

CELLS = (
    *("ground", "heart"),
    *("blade", "pair"),
    *(f"{unit} turned {turn}" for unit in ("blade", "pair") for turn in (1, 2, 3)),
)


def block(rows: list[list[str]]) -> str:
    """The grid as a block; unused units are left out."""
    used = [line for line in UNITS.splitlines()[1:] if line.split(":")[0].strip() in str(rows)]
    units = "\n".join(["units:", *used]) + "\n" if used else ""
    grid = ", ".join(f"[{', '.join(row)}]" for row in rows)
    return (
        f"{units}blocks:\n  grid:\n    rows: [{grid}]\n"
        f"    columns: {[2] * len(rows[0])}\n    heights: {[2] * len(rows)}\n"
    )


@st.composite
def grids(draw: st.DrawFn) -> list[list[str]]:
    across, down = draw(st.sampled_from([(2, 2), (3, 1), (3, 2), (2, 3)]))
    cell = st.sampled_from(CELLS)
    rows = draw(
        st.lists(st.lists(cell, min_size=across, max_size=across), min_size=down, max_size=down)
    )
    rows[0][0], rows[-1][-1] = "ground", "heart"
    return rows


@given(grids())
@settings(max_examples=6)
def test_no_way_of_pressing_nests_better(rows: list[list[str]]) -> None:
    publication = published(block(rows), setting("grid")).publication
    clashes = lying(publication)[Lying.CLASHING]
    least = min(lying(other)[Lying.CLASHING] for other in _all_ways(_in_one_set(rows)))
    eased = any(make.name.endswith(SET_B) for make in publication.makes)
    assert clashes <= least
    assert eased or lying(publication)[Lying.OPEN] or clashes == least


def _in_one_set(rows: list[list[str]]) -> Publication:
    """The same with a firm word for every unit and seam, so that nothing is made in two sets."""
    names = {cell.split(" ")[0] for row in rows for cell in row} - {"ground", "heart"}
    units = [f"{name}: {{seam: to the dark}}" for name in sorted(names)]
    seams = ["grid: {rows: right}"] if len(rows[0]) > 1 else []
    pressing = f"pressing: {{{', '.join([*units, *seams])}}}\n"
    return published(block(rows), setting("grid"), pressing).publication


def _all_ways(publication: Publication) -> Iterator[Publication]:
    """Every seam of the grid and every unit both ways; the seams between rows meet nothing."""
    ways = [list(_ways(make)) for make in publication.makes]
    for makes in product(*ways):
        yield replace(publication, makes=makes)


def _ways(make: Make) -> Iterator[Make]:
    if make.name in ("blade", "pair"):
        yield make
        yield replace(make, steps=tuple(map(pressed_other_way, make.steps)))
        return
    step = next((s for s in make.steps if isinstance(s, Assemble)), None)
    if step is None or make.name != "grid":
        yield make
        return
    rows = [
        [", ".join(words) for words in product(("left", "right"), repeat=len(row) - 1)]
        for row in step.rows
    ]
    for press in product(*rows):
        pressed = replace(step, row_press=press, between="down")
        yield replace(make, steps=tuple(pressed if s is step else s for s in make.steps))


WAY = st.sampled_from(["left", "right"])


@given(
    st.integers(2, 4).flatmap(
        lambda n: st.lists(st.lists(WAY, min_size=n, max_size=n), min_size=2, max_size=4)
    )
)
@settings(max_examples=12)
def test_plain_patches_are_judged_by_their_rows_alone(ways: list[list[str]]) -> None:
    """Seams of two rows meet in every column; they nest where the words differ."""
    across, down = len(ways[0]) + 1, len(ways)
    rows = [[("ground", "heart")[(i + j) % 2] for i in range(across)] for j in range(down)]
    publication = published(block(rows), setting("grid")).publication
    grid = publication.makes[0]
    step = grid.steps[0]
    assert isinstance(step, Assemble)
    assert step.between != SPUN or across == down == 2
    press = tuple(", ".join(row) for row in ways)
    steps = (replace(step, row_press=press, between="down"), *grid.steps[1:])
    changed = replace(publication, makes=(replace(grid, steps=steps), *publication.makes[1:]))
    met = [a == b for above, below in pairwise(ways) for a, b in zip(above, below, strict=True)]
    found = lying(changed)
    assert found[Lying.CLASHING] == sum(met)
    assert found[Lying.NESTED] == len(met) - sum(met)
    assert set(lying(publication)) <= {Lying.NESTED}
