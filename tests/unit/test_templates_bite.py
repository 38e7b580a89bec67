"""Every number of the template family's units is held by the bench, outline points included."""

from __future__ import annotations

from dataclasses import replace

import pytest
from judge import is_same_cloth
from mutate import mutations
from quicktions import Fraction
from template_units import SAMPLES
from whole_path import build

from pieceproof.bench import prove
from pieceproof.model import Measure

MOST = 250
"""Changes tried of one sample; of larger ones every second or third."""


@pytest.mark.parametrize("name", SAMPLES)
def test_every_changed_number_is_noticed(name: str) -> None:
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, Fraction(1, 4), cells)
    assert not built.disagreements()
    missed = []
    changes = [m for m in mutations(built.publication) if m.path.startswith(("pieces", "makes[0]"))]
    for mutation in changes[:: 1 + len(changes) // MOST]:
        if not prove(mutation.publication, built.drawing):
            same = mutation.is_direction and is_same_cloth(built.publication, mutation.publication)
            if not same:
                missed.append(f"{mutation.path}: {mutation.change}")
    assert not missed


@pytest.mark.parametrize("name", SAMPLES)
def test_a_left_out_step_is_noticed(name: str) -> None:
    unit, cells = SAMPLES[name]
    built = build(unit, Measure.INCH, Fraction(1, 4), cells)
    make, *others = built.publication.makes
    for number, step in enumerate(make.steps):
        shorter = replace(make, steps=(*make.steps[:number], *make.steps[number + 1 :]))
        changed = replace(built.publication, makes=(shorter, *others))
        unneeded = is_same_cloth(built.publication, changed)
        assert bool(prove(changed, built.drawing)) != unneeded, step
