"""Every number of the triangle family's units is held by the bench: change one, and it says so."""

from __future__ import annotations

from dataclasses import replace

import pytest
from judge import is_same_cloth
from mutate import mutations
from quicktions import Fraction
from triangle_units import SAMPLES
from whole_path import build

from pieceproof.bench import prove
from pieceproof.model import Measure
from pieceproof.steps import CutApart

MOST = 90
"""Changes tried of one sample; of long makes every second or third."""


@pytest.mark.parametrize("name", SAMPLES)
def test_every_changed_number_is_noticed(name: str) -> None:
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, Fraction(1, 4), cells)
    assert not built.disagreements()
    missed = []
    changes = mutations(built.publication)
    of_the_unit = [m for m in changes if m.path.startswith(("pieces", "makes[0]"))]
    for mutation in of_the_unit[:: 1 + len(of_the_unit) // MOST]:
        if not prove(mutation.publication, built.drawing):
            same = mutation.is_direction and is_same_cloth(built.publication, mutation.publication)
            if not same:
                missed.append(f"{mutation.path}: {mutation.change}")
    assert not missed


@pytest.mark.parametrize("name", SAMPLES)
def test_a_left_out_step_is_noticed(name: str) -> None:
    """All but cutting an offcut away: left in under the fold, it changes nothing to be seen."""
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, Fraction(1, 4), cells)
    make, *others = built.publication.makes
    for number, step in enumerate(make.steps):
        shorter = replace(make, steps=(*make.steps[:number], *make.steps[number + 1 :]))
        noticed = prove(replace(built.publication, makes=(shorter, *others)), built.drawing)
        only_tidies = isinstance(step, CutApart) and "" in (step.first, step.second)
        assert bool(noticed) != only_tidies, step
