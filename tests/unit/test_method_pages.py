"""The handbook's pages of methods: every example is read and proved, every sum gives its cut."""

from __future__ import annotations

from functools import cache

import pytest
from quicktions import Fraction

from pieceproof.bench import prove
from pieceproof.checks import check_designs
from pieceproof.lengths import parse_length
from pieceproof.methods import METHODS, check_methods
from pieceproof.reading import read_pattern
from pieceproof.writing.method_pages import method_page, told
from pieceproof.writing.samples_of_methods import (
    WANTED,
    Sample,
    sample_of,
    sample_text,
    unit_text,
)
from pieceproof.writing.tracing import sides_of, sum_of

METHOD = {method.name: method for method in METHODS}
every_method = pytest.mark.parametrize("name", METHOD)


@cache
def sample(name: str) -> Sample:
    return sample_of(METHOD[name])


@every_method
def test_its_example_is_read_and_proved(name: str) -> None:
    text = sample_text(METHOD[name])
    assert unit_text(METHOD[name]) in text
    designs, problems, _ = read_pattern("patterns/sample/pattern.yaml", text.encode(), METHODS)
    assert [*problems, *check_designs(designs, problems), *check_methods(designs[0])] == []
    row = sample(name).row
    assert not prove(row.publication, row.drawing)
    assert row.publication.width == WANTED * METHOD[name].size(designs[0].units["sample"]).width


@every_method
def test_its_sums_give_what_is_cut(name: str) -> None:
    """The amounts as they are printed, added up again; the cut is the bench's own piece."""
    found, step = sample(name), Fraction(1, 8)
    cut = {p.letter: (p.short, p.long) for p in found.row.publication.pieces}
    for trace in found.traces:
        assert cut[trace.piece.letter] == (trace.piece.short, trace.piece.long)
        for use in trace.uses:
            for way, side in sides_of(trace.piece, use.short, use.long).values():
                lines = list(sum_of(way, side, found.design.measure))
                assert parse_length(lines[-1].amount) == side
                if not any("root" in line.amount for line in lines):
                    shares = [parse_length(line.amount) for line in lines[: len(way.shares)]]
                    assert 0 <= side - sum(filter(None, shares)) < step or way.reason


OUTCOMES = {
    "half-square triangles": "A round gives 2. For 7, 4 rounds make 8; 1 is spare.",
    "half-square triangles eight at a time": "A round gives 8. For 7, 1 round makes 8; 1 is spare.",
    "stitched corners": "A round gives 1. For 7, 7 rounds make 7; none is spare.",
}
"""Worked out by hand."""


@pytest.mark.parametrize("name", OUTCOMES)
def test_its_page_shows_the_example_and_what_rounds_give(name: str) -> None:
    found = told(name)
    page = method_page(found)
    whole = page.markdown + "".join(page.fragments)
    assert OUTCOMES[name] in page.markdown
    assert found.example in whole
    assert whole.count("<svg") == 2
    others = [file for _, file in found.methods if file]
    assert all(f"]({file})" in page.markdown for file in others)
