"""The type that booklets are set in, as data addresses.

In: the package's own fonts (SIL Open Font License, beside them). Out: addresses for a style sheet.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from pkgutil import get_data

_FILES = {
    "serif": "alegreya.woff2",
    "regular": "alegreya-sans-400-normal.woff2",
    "italic": "alegreya-sans-400-italic.woff2",
    "bold": "alegreya-sans-700-normal.woff2",
}


@cache
def font_addresses() -> Mapping[str, str]:
    """A ``data:`` address for every face by what it is used for."""
    return {use: _address(name) for use, name in _FILES.items()}


def _address(name: str) -> str:
    font = get_data("pieceproof", f"static/fonts/{name}")
    assert font is not None
    return f"data:font/woff2;base64,{b64encode(font).decode()}"
