"""The type that booklets are set in, as data addresses.

In: the package's own fonts (SIL Open Font License, beside them). Out: addresses for a style sheet.
They are unpacked here, one weight each, because the time of day would come into what WeasyPrint
unpacks.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from importlib import import_module
from io import BytesIO
from pkgutil import get_data
from typing import Any

_FILES = {
    "serif": "alegreya.woff2",
    "regular": "alegreya-sans-400-normal.woff2",
    "italic": "alegreya-sans-400-italic.woff2",
    "bold": "alegreya-sans-700-normal.woff2",
}

_WEIGHT = 600
"""Of headings, out of the face that has all weights."""


@cache
def font_addresses() -> Mapping[str, str]:
    """A ``data:`` address for every face by what it is used for."""
    return {use: _address(name) for use, name in _FILES.items()}


def _address(name: str) -> str:
    packed = get_data("pieceproof", f"static/fonts/{name}")
    assert packed is not None
    ttlib: Any = import_module("fontTools.ttLib")
    font = ttlib.TTFont(BytesIO(packed), recalcTimestamp=False)
    if "fvar" in font:
        instancer: Any = import_module("fontTools.varLib.instancer")
        font = instancer.instantiateVariableFont(font, {"wght": _WEIGHT})
    font.flavor = None
    plain = BytesIO()
    font.save(plain)
    return f"data:font/ttf;base64,{b64encode(plain.getvalue()).decode()}"
