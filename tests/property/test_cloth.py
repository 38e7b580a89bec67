"""Random cutting lists: the proof agrees with the requirements, and notices what is changed."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from cloth_samples import Sized, small
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from quicktions import Fraction

from pieceproof.cloth_proof import cloth_faults
from pieceproof.layout import CENTRE, TOP
from pieceproof.model import Measure
from pieceproof.requirements import USABLE_WIDTHS, requirements

F = Fraction


@pytest.fixture(autouse=True, scope="module")
def _little_effort() -> Iterator[None]:
    """The planner itself, but it soon gives up looking for shorter plans."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("pieceproof.requirements.USUAL_EFFORT", 100_000)
        yield


@st.composite
def sized(draw: st.DrawFn) -> Sized:
    """Up to three fabrics of up to three lines, with binding and backing or without."""
    measure = draw(st.sampled_from(Measure))
    scale = 1 if measure is Measure.INCH else F(5, 2)

    def length(least: int, most: int) -> st.SearchStrategy[F]:
        low, high = (int(end * scale / measure.step) for end in (least, most))
        return st.integers(low, high).map(lambda steps: steps * measure.step)

    piece = st.tuples(
        length(1, 20), length(1, 90), st.integers(1, 60), st.sampled_from([TOP, CENTRE, "star"])
    ).map(lambda p: (min(p[:2]), max(p[:2]), *p[2:]))
    names = ["ground", "wing", "heart"][: draw(st.integers(0, 3))]
    lists = {name: draw(st.lists(piece, min_size=1, max_size=3)) for name in names}
    finish = st.sampled_from([*names, "edge"])
    binding = st.tuples(finish, st.just(F(5, 2)), length(40, 400))
    backing = st.tuples(finish, length(10, 120), length(10, 120))
    return small(
        lists,
        measure,
        draw(st.none() | binding),
        draw(backing if not names else st.none() | backing),
        quantity=draw(st.integers(1, 4)),
    )


def in_one_cloth(sample: Sized) -> Sized:
    design, publication = sample
    (way,) = design.colourways.values()
    first = next(iter(way.parts.values()))
    one = replace(way, parts=dict.fromkeys(way.parts, first))
    return replace(design, colourways={**design.colourways, "one": one}), publication


@settings(max_examples=60, deadline=None)
@given(sized())
def test_requirements_are_proved(sample: Sized) -> None:
    design, publication = in_one_cloth(sample)
    found, problems = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
    assume(not problems)
    assert cloth_faults(design, publication, found) == ()


@settings(max_examples=60, deadline=None)
@given(sized(), st.data())
def test_one_piece_more_is_noticed(sample: Sized, data: st.DataObject) -> None:
    design, publication = sample
    found, problems = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
    assume(not problems and publication.pieces)
    place = data.draw(st.integers(0, len(publication.pieces) - 1))
    piece = publication.pieces[place]
    more = replace(piece, count=piece.count + 1)
    pieces = (*publication.pieces[:place], more, *publication.pieces[place + 1 :])
    assert cloth_faults(design, replace(publication, pieces=pieces), found)


@settings(max_examples=60, deadline=None)
@given(sized(), st.sampled_from(["yards", "metres"]), st.sampled_from([1, -1]))
def test_a_step_more_or_less_is_noticed(sample: Sized, unit: str, way: int) -> None:
    design, publication = sample
    found, problems = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
    assume(not problems)
    step = F(1, 8) if unit == "yards" else F(1, 20)
    wrong = replace(found.needs[0], **{unit: getattr(found.needs[0], unit) + way * step})
    assert cloth_faults(design, publication, replace(found, needs=(wrong, *found.needs[1:])))
