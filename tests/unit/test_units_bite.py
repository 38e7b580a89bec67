"""Every number of the samples of units is held by the bench, outline points included."""

from __future__ import annotations

import pytest
import template_units
import triangle_units
from bites import missed, only_tidies, without_one_step
from judge import is_same_cloth
from mutate import mutations
from quicktions import Fraction
from whole_path import Built, build

from pieceproof.bench import prove
from pieceproof.model import Measure

SAMPLES = {**triangle_units.SAMPLES, **template_units.SAMPLES}


def built(name: str) -> Built:
    unit, cells = SAMPLES[name]
    made = build(unit, Measure.INCH, Fraction(1, 4), cells)
    assert not made.disagreements()
    return made


@pytest.mark.parametrize("name", SAMPLES)
def test_every_changed_number_is_noticed(name: str) -> None:
    """Of long makes every second or third."""
    most = 90 if name in triangle_units.SAMPLES else 250
    made = built(name)
    changes = [m for m in mutations(made.publication) if m.path.startswith(("pieces", "makes[0]"))]
    assert not missed(made.publication, made.drawing, changes[:: 1 + len(changes) // most])


@pytest.mark.parametrize("name", triangle_units.SAMPLES)
def test_a_left_out_step_is_noticed(name: str) -> None:
    made = built(name)
    for step, changed in without_one_step(made.publication, 0):
        assert bool(prove(changed, made.drawing)) != only_tidies(step), step


@pytest.mark.parametrize("name", template_units.SAMPLES)
def test_a_left_out_step_of_templates_is_noticed(name: str) -> None:
    made = built(name)
    for step, changed in without_one_step(made.publication, 0):
        unneeded = is_same_cloth(made.publication, changed)
        assert bool(prove(changed, made.drawing)) != unneeded, step
