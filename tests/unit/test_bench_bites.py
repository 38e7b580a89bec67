"""Every single number of a publication is held by the bench: change one, and it says so."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bench_samples import INCH_SAMPLES, half_square_triangles, nine_patch
from bites import misjudged, only_tidies, without_one_step
from judge import is_same_cloth
from mutate import mutations

from pieceproof.bench import prove


@pytest.mark.parametrize("name", INCH_SAMPLES)
def test_every_changed_number_is_noticed(name: str) -> None:
    publication, drawing = INCH_SAMPLES[name]()
    assert not misjudged(publication, drawing, mutations(publication))


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
    publication, drawing = INCH_SAMPLES[name]()
    for which in range(len(publication.makes)):
        for step, changed in without_one_step(publication, which):
            assert bool(prove(changed, drawing)) != only_tidies(step), step


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
