"""Skill counted from the work, against counts by hand, and the precuts and scraps that serve."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from examples import EXAMPLES, publish_one

from pieceproof.fact_skill import skill_facts, skill_sentence
from pieceproof.published import Piece, Publication
from pieceproof.seam_check import seam_check
from pieceproof.skill import Level, Skill, skill_of
from pieceproof.stash import precuts_for, scraps_serve
from pieceproof.tips import tips_of


@cache
def counted(example: str) -> Skill:
    design, publication, drawing = publish_one(EXAMPLES[example]())
    check = seam_check(design, publication, tips_of(design, publication, drawing))
    return skill_of(publication, drawing, check)


def test_seams_of_the_runner_counted_by_hand() -> None:
    """20 points of 2 seams; 5 stars of 3 rows of 3; 3 rows of 11 with sashing; 4 border strips."""
    assert counted("runner").seams == 20 * 2 + 5 * (3 * 2 + 2) + (3 * 10 + 2) + 4


def test_joins_of_the_runner_counted_by_hand() -> None:
    """At the corners of each star's centre, and at each star's own corners among the sashing."""
    assert counted("runner").joins == 5 * 4 + 5 * 4


def test_triangles_cut_between_two_seams_leave_no_free_bias_edge() -> None:
    assert all(counted(example).bias_edges == 0 for example in EXAMPLES)


def test_the_level_is_that_of_what_is_most_demanding() -> None:
    easy = replace(counted("runner"), side=3, lost=0, joins=10, bias_edges=0)
    assert (easy.level, easy.reasons) == (Level.FIRST, ())
    hard = replace(easy, joins=80, bias_edges=4, set_in=8)
    assert (hard.level, hard.reasons) == (Level.EXPERIENCED, ("set-in seams",))
    some = replace(hard, set_in=0)
    assert some.level is Level.PRACTISED
    assert some.reasons == ("edges on the bias", "many joins to match")


def test_what_cannot_be_followed_is_not_called_forgiving() -> None:
    assert replace(counted("runner"), lost=0).forgives
    assert not replace(counted("runner"), lost=None).forgives


def test_the_sentence_says_the_counts() -> None:
    design, publication, _ = publish_one(EXAMPLES["runner"]())
    skill = counted("runner")
    sentence = skill_sentence(design, skill)
    facts = {fact.key: fact.published for fact in skill_facts(design, publication, skill)}
    assert f"{facts['skill, seams to sew']} seams" in sentence
    assert f"{facts['skill, joins to match']} joins to match" in sentence
    assert f"**{skill.smallest.letter}**" in sentence


def units_of(publication: Publication, *sizes: tuple[int, int]) -> Publication:
    """The publication with pieces of these sizes in its units instead of its own."""
    pieces = publication.pieces
    unit = next(make.name for make in publication.makes if make.method)
    small = [replace(pieces[0], short=a, long=b, uses=(unit,)) for a, b in sizes]
    others: list[Piece] = [replace(piece, uses=("top",)) for piece in pieces]
    return replace(publication, pieces=(*small, *others))


@pytest.mark.parametrize(
    ("sizes", "precuts", "scraps"),
    [
        ([(2, 5)], ('5" squares', '2 1/2" strips', '10" squares', "fat quarters"), True),
        ([(2, 5), (2, 12)], ('2 1/2" strips', "fat quarters"), False),
        ([(5, 8)], ('10" squares', "fat quarters"), True),
        ([(18, 21)], (), False),
    ],
)
def test_precuts_and_scraps(
    sizes: list[tuple[int, int]], precuts: tuple[str, ...], scraps: bool
) -> None:
    _, publication, _ = publish_one(EXAMPLES["runner"]())
    publication = units_of(publication, *sizes)
    assert (precuts_for(publication), scraps_serve(publication)) == (precuts, scraps)


def test_a_metric_piece_is_held_against_the_precut_in_centimetres() -> None:
    """2 1/2 in is 6.35 cm."""
    _, publication, _ = publish_one(EXAMPLES["runner"]())
    metric = replace(units_of(publication, (6, 50)), measure="centimetre")
    assert '2 1/2" strips' in precuts_for(metric)
    assert '2 1/2" strips' not in precuts_for(replace(metric, measure="inch"))
