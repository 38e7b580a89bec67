"""One drawing of the top for many colourings of one page.

In: a size's scene, and photographs of cloths. Out: the drawing once, out of sight, and the style
rules by which copies of it take their colours from their surroundings. So a page with dozens of
tops carries one. A photographed cloth is repeated at its true scale in the drawing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from pieceproof.diagrams.legible import scale_of
from pieceproof.drawing.paint import cloth_class
from pieceproof.drawing.photographs import Photograph
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.model import ClothName, FabricName
from pieceproof.pages.tokens import token
from pieceproof.swatches import Print

WIDTH_PX = 420
FOLDER = "../"
"""Where photographs lie, seen from a page that shows tops."""
_TEXTS = re.compile(r"<(title|desc)\b.*?</\1>\n?", re.DOTALL)
_ROOT = re.compile(r'<svg[^>]*viewBox="([^"]*)"[^>]*>(.*)</svg>', re.DOTALL)


@dataclass(frozen=True)
class Stored:
    """A drawing to be copied with ``<use>``: its id, its box, and itself."""

    ident: str
    box: str
    store: Markup


def stored(
    scene: Scene, ident: str, colours: Mapping[str, str], prints: Mapping[str, Print]
) -> Stored:
    """The scene as a symbol whose cloths are filled from custom properties."""
    root = _ROOT.search(to_svg(scene, Look.COLOUR, ident, WIDTH_PX, colours))
    assert root is not None
    box, body = root[1], _TEXTS.sub("", root[2])
    rules = "".join(f"#{ident} .{cloth_class(c)}{{fill:var({_property(c)})}}" for c in colours)
    gone = f"#{ident} :is(.pp-dark-seam,.pp-paper){{display:none}}"
    style = f"<style>{rules}{gone}</style>"
    symbol = f'<symbol id="{ident}" viewBox="{box}">{body}</symbol>'
    hidden = 'class="pp-store" width="0" height="0" aria-hidden="true" focusable="false"'
    scale = scale_of(scene, WIDTH_PX)
    defs = "".join(_pattern(cloth, found, scale) for cloth, found in prints.items())
    return Stored(ident, box, Markup(f"<svg {hidden}>{style}<defs>{defs}</defs>{symbol}</svg>"))


def coloured(colours: Mapping[str, str]) -> str:
    """What an element's style says so that copies inside it have these colours."""
    return ";".join(f"{_property(cloth)}:{colour}" for cloth, colour in colours.items())


def printed(
    colours: Mapping[str, str], parts: Mapping[FabricName, ClothName], prints: Mapping[str, Print]
) -> Mapping[str, str]:
    """The colours, with the print in place of the colour where a part's cloth has one."""
    shown = {
        str(part): f"url(#{_ident(cloth)})" for part, cloth in parts.items() if cloth in prints
    }
    return {**colours, **shown}


def linked(
    parts: Mapping[FabricName, ClothName], prints: Mapping[str, Print]
) -> Mapping[str, Photograph]:
    """Photographs for other drawings of the page, by part."""
    return {
        str(part): Photograph(FOLDER + found.file, found.width, found.height)
        for part, cloth in parts.items()
        if (found := prints.get(cloth)) is not None
    }


def _pattern(cloth: str, found: Print, scale: float) -> str:
    width, height = (f"{float(side) * scale:.3f}" for side in (found.width, found.height))
    size = f'width="{width}" height="{height}"'
    image = f'<image href="{FOLDER}{found.file}" {size} preserveAspectRatio="none"/>'
    return f'<pattern id="{_ident(cloth)}" patternUnits="userSpaceOnUse" {size}>{image}</pattern>'


def _ident(cloth: str) -> str:
    return f"pp-print-{token(cloth)}"


def _property(cloth: str) -> str:
    return "--" + cloth_class(cloth)
