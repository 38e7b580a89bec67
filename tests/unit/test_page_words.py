"""Terms explained in place, and lengths said in the other unit."""

from __future__ import annotations

import pytest
from markupsafe import Markup
from quicktions import Fraction

from pieceproof.converted import about, at_least
from pieceproof.model import Measure
from pieceproof.pages.terms import TERMS, explained, term_id

F = Fraction


def test_a_term_is_a_button_once() -> None:
    texts = [Markup("Lay them right sides together."), Markup("Again right sides together; RST.")]
    first, second = explained(texts)
    assert first.count("<button") == 1
    assert 'popovertarget="term-right-sides-together"' in first
    assert second.count("<button") == 1
    assert 'popovertarget="term-rst"' in second


@pytest.mark.parametrize(
    "text",
    [
        '<a href="x">WOF</a>',
        "<h3>HST unit</h3>",
        '<p title="WOF">none</p>',
        "WOFFLE, nested, foundational",
    ],
)
def test_links_headings_attributes_and_longer_words_are_left_alone(text: str) -> None:
    assert explained([Markup(text)]) == [text]


def test_terms_have_ids_of_their_own() -> None:
    assert len({term_id(term) for term in TERMS}) == len(TERMS)


def test_sizes_in_the_other_unit() -> None:
    """1 in is 2.54 cm exactly (check value 108: YARD): 37 in are 93.98 cm, 33 cm are 12.99 in."""
    assert about(Measure.INCH, Fraction(37), Fraction(33, 2)) == "94 x 42 cm"
    assert about(Measure.CENTIMETRE, Fraction(45), Fraction(33)) == '17 1/2" x 13"'


def test_cloth_that_must_be_wide_enough_is_rounded_up() -> None:
    """42 in are 106.68 cm; 110 cm are 43.307 in."""
    assert at_least(Measure.INCH, Fraction(42)) == "106.7 cm"
    assert at_least(Measure.CENTIMETRE, Fraction(110)) == '43 3/8"'
