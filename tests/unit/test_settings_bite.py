"""Every single number of a setting is held by the bench: change one, and it says so."""

from __future__ import annotations

from itertools import islice

import pytest
from bites import misjudged
from judge import finished_makes, shows
from mutate import mutations
from settings_samples import SAMPLES

SHARES = range(2)


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_changed_number_is_noticed(name: str, share: int) -> None:
    made = SAMPLES[name]()
    publication, drawing = made.publication, made.drawing
    changes = islice(mutations(publication), share, None, len(SHARES))
    assert not misjudged(publication, drawing, changes)


@pytest.mark.parametrize("name", SAMPLES)
def test_an_independent_sewing_shows_the_drawing(name: str) -> None:
    made = SAMPLES[name]()
    top = made.publication.makes[-1].name
    (sewn,) = finished_makes(made.publication)[top]
    assert made.disagreements() == []
    assert shows(sewn, made.drawing.pictures[top])
