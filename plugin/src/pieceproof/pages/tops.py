"""One drawing of the top for many colourings of one page.

In: a size's scene. Out: the drawing once, out of sight, and the style rules by which copies of it
take their colours from their surroundings. So a page with dozens of tops carries one.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from pieceproof.drawing.paint import cloth_class
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg

WIDTH_PX = 420
_TEXTS = re.compile(r"<(title|desc)\b.*?</\1>\n?", re.DOTALL)
_ROOT = re.compile(r'<svg[^>]*viewBox="([^"]*)"[^>]*>(.*)</svg>', re.DOTALL)


@dataclass(frozen=True)
class Stored:
    """A drawing to be copied with ``<use>``: its id, its box, and itself."""

    ident: str
    box: str
    store: Markup


def stored(scene: Scene, ident: str, colours: Mapping[str, str]) -> Stored:
    """The scene as a symbol whose cloths are filled from custom properties."""
    root = _ROOT.search(to_svg(scene, Look.COLOUR, ident, WIDTH_PX, colours))
    assert root is not None
    box, body = root[1], _TEXTS.sub("", root[2])
    rules = "".join(f"#{ident} .{cloth_class(c)}{{fill:var({_property(c)})}}" for c in colours)
    gone = f"#{ident} :is(.pp-dark-seam,.pp-paper){{display:none}}"
    style = f"<style>{rules}{gone}</style>"
    symbol = f'<symbol id="{ident}" viewBox="{box}">{body}</symbol>'
    hidden = 'class="pp-store" width="0" height="0" aria-hidden="true" focusable="false"'
    return Stored(ident, box, Markup(f"<svg {hidden}>{style}{symbol}</svg>"))


def coloured(colours: Mapping[str, str]) -> str:
    """What an element's style says so that copies inside it have these colours."""
    return ";".join(f"{_property(cloth)}:{colour}" for cloth, colour in colours.items())


def _property(cloth: str) -> str:
    return "--" + cloth_class(cloth)
