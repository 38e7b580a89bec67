"""The note that the usual metric addition is short, by the geometry of the pattern's own seam."""

from __future__ import annotations

import pytest
from quicktions import Fraction
from triangle_units import SAMPLES
from whole_path import build

from pieceproof.lengths import square_root
from pieceproof.model import Measure
from pieceproof.usual import usual_addition

F = Fraction
NOTES = {
    # METR (metric geese, 2012) adds 2.5 and 3.5 cm for seams of 0.75; 0.6 and 1.2 mm short.
    ("half-square triangles", F(3, 4)): ("2.5 cm", "0.6 mm"),
    ("hourglass of two fabrics", F(3, 4)): ("3.5 cm", "1.2 mm"),
    ("flying geese four at a time", F(3, 4)): ("3.5 cm", "1.2 mm"),
}


@pytest.mark.parametrize(("name", "seam"), NOTES)
def test_the_note(name: str, seam: Fraction) -> None:
    built = build(SAMPLES[name][0], Measure.CENTIMETRE, seam)
    (steps,) = (i.steps for i in built.instructions() if i.make.name == "unit")
    addition, short = NOTES[name, seam]
    assert steps[-1].startswith(f"Many metric books add {addition} to the finished side")
    assert f"that is {short} too little" in steps[-1]


def test_the_shortfall_is_exact() -> None:
    built = build(SAMPLES["half-square triangles"][0], Measure.CENTIMETRE, F(3, 4))
    pieces = {piece.letter: piece for piece in built.publication.pieces}
    found = usual_addition(Measure.CENTIMETRE, F(3, 4), built.publication.makes[0], pieces)
    assert found is not None
    assert found.short == F(3, 4) * (2 + square_root(2)) - F(5, 2)


@pytest.mark.parametrize(
    "name", ["half-square triangles eight at a time", "half-rectangle triangles"]
)
def test_no_note_where_nothing_is_added_so(name: str) -> None:
    built = build(SAMPLES[name][0], Measure.CENTIMETRE, F(3, 4))
    assert not any("metric books" in s for i in built.instructions() for s in i.steps)


def test_no_note_where_the_usual_is_enough() -> None:
    """Seams of 0.7 cm take 2.390 cm; the nearest half centimetre is 2.5."""
    built = build(SAMPLES["half-square triangles"][0], Measure.CENTIMETRE, F(7, 10))
    assert not any("metric books" in s for i in built.instructions() for s in i.steps)


def test_no_note_in_inches() -> None:
    built = build(SAMPLES["half-square triangles"][0], Measure.INCH, F(1, 4))
    assert not any("metric books" in s for i in built.instructions() for s in i.steps)
