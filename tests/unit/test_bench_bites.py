"""Every single number of a publication is held by the bench: change one, and it says so.

Where a changed direction makes the same quilt (a square piece turned by a quarter), an
independent sewing with Shapely decides that it does, and the bench must then stay silent.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from bench_samples import INCH_SAMPLES, half_square_triangles, nine_patch
from judge import is_same_cloth
from mutate import mutations

from pieceproof.bench import prove
from pieceproof.steps import CutApart


@pytest.mark.parametrize("name", INCH_SAMPLES)
def test_every_changed_number_is_noticed(name: str) -> None:
    publication, drawing = INCH_SAMPLES[name]()
    missed, false_alarms = [], []
    for mutation in mutations(publication):
        noticed = bool(prove(mutation.publication, drawing))
        same = mutation.is_direction and is_same_cloth(publication, mutation.publication)
        if not noticed and not same:
            missed.append(f"{mutation.path}: {mutation.change}")
        if noticed and same:
            false_alarms.append(f"{mutation.path}: {mutation.change}")
    assert not missed
    assert not false_alarms


def test_the_mutator_reaches_every_kind_of_number() -> None:
    paths = {m.path for m in mutations(INCH_SAMPLES["sashed top"]()[0])}
    for expected in (
        "step",
        "seam",
        "width",
        "pieces[0].short",
        "pieces[5].needed_long",
        "pieces[2].count",
        "makes[0].rounds",
        "makes[1].steps[0].rows[1][1].turn",
        "makes[2].steps[2].side",
        "makes[2].steps[2].allowance",
        "binding.length",
        "backing.beyond",
        "batting.height",
    ):
        assert expected in paths


def test_the_mutator_reaches_roots_and_corners() -> None:
    paths = {m.path for m in mutations(half_square_triangles()[0])}
    assert {"pieces[0].needed_short", "makes[0].steps[2].corner"} <= paths
    assert {"makes[0].steps[3].line.slope", "makes[0].steps[9].off_left"} <= paths


def test_the_judge_tells_squares_from_rectangles() -> None:
    publication, _ = nine_patch()
    turned = next(m for m in mutations(publication) if m.path.endswith("rows[0][0].turn"))
    assert is_same_cloth(publication, turned.publication)
    wider = replace(publication.pieces[0], long=publication.pieces[0].long + 1)
    other = replace(publication, pieces=(wider, *publication.pieces[1:]))
    assert not is_same_cloth(publication, other)


@pytest.mark.parametrize("name", INCH_SAMPLES)
def test_a_left_out_step_is_noticed(name: str) -> None:
    """All but cutting an offcut away: left in under the fold, it changes nothing to be seen."""
    publication, drawing = INCH_SAMPLES[name]()
    for index, make in enumerate(publication.makes):
        for step in range(len(make.steps)):
            shorter = replace(make, steps=(*make.steps[:step], *make.steps[step + 1 :]))
            makes = (*publication.makes[:index], shorter, *publication.makes[index + 1 :])
            only_tidies = isinstance(make.steps[step], CutApart) and "" in parts(make.steps[step])
            noticed = bool(prove(replace(publication, makes=makes), drawing))
            assert noticed != only_tidies, (make.name, step)


def parts(cut: CutApart) -> tuple[str, str]:
    return (cut.first, cut.second)


@pytest.mark.parametrize("name", INCH_SAMPLES)
def test_two_pieces_with_exchanged_fabrics_are_noticed(name: str) -> None:
    publication, drawing = INCH_SAMPLES[name]()
    first, second, *rest = publication.pieces
    swapped = (
        replace(first, fabric=second.fabric),
        replace(second, fabric=first.fabric),
        *rest,
    )
    assert prove(replace(publication, pieces=swapped), drawing)
