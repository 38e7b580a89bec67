"""The reference of the file format has every method and every key of a pattern."""

from __future__ import annotations

from pieceproof.forms import keys_of
from pieceproof.methods import METHODS
from pieceproof.model import Design
from pieceproof.writing.format_page import format_page


def test_every_method_and_key_is_told() -> None:
    page = format_page(METHODS)
    for method in METHODS:
        assert f"## `method: {method.name}`\n" in page
        for key in keys_of(method.design):
            assert f"| `{key.text}` |" in page
    assert [key.text for key in keys_of(Design) if f"| `{key.text}` |" not in page] == []
