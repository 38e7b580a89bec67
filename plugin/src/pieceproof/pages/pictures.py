"""Scenes on a page: drawn inline where the page is short of nothing, else as files beside it.

In: scenes for every choice. Out: variants of HTML, or of pictures with their files. Inline
drawings have the first colourway's colours; the colours are also hook classes, so the page's style
sheet shows another colourway without drawing anything again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from xml.etree import ElementTree

from markupsafe import Markup

from pieceproof.drawing.paint import cloth_class
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.pages.choices import Axis, Combination, Variant, button_id, variants


@dataclass(frozen=True)
class Pictured:
    """A picture as the page shows it; ``src`` is a file beside the page."""

    src: str
    alt: str
    width: int
    height: int


def pictured(scene: Scene, svg: str, src: str) -> Pictured:
    """A drawn scene that is kept in a file."""
    root = ElementTree.fromstring(svg)
    alt = f"{scene.title}. {scene.desc}" if scene.desc else scene.title
    return Pictured(src, alt, int(root.attrib["width"]), int(root.attrib["height"]))


def inline(
    axes: Sequence[Axis],
    cases: Iterable[tuple[Combination, Scene]],
    ident: str,
    width_px: int,
    colours: Mapping[str, str],
) -> tuple[Variant[Markup], ...]:
    """Drawings for a page; ``ident`` is unique among the page's drawings."""
    return tuple(
        Variant(
            variant.holds,
            Markup(to_svg(variant.content, Look.COLOUR, f"{ident}-{number}", width_px, colours)),
        )
        for number, variant in enumerate(variants(axes, cases), start=1)
    )


def colour_rules(axis: Axis, colourways: Mapping[str, Mapping[str, str]]) -> str:
    """Style rules that fill the parts in inline drawings with the chosen colourway's colours."""
    return "\n".join(
        f"body:has(#{button_id(axis, option)}:checked) .pp-drawing .{cloth_class(part)}"
        f"{{fill:{colour}}}"
        for option in axis.options
        for part, colour in colourways[option.token].items()
    )
