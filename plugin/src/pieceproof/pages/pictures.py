"""Scenes on a page: drawn inline where the page is short of nothing, else as files beside it.

In: scenes for every choice. Out: variants of HTML, or of pictures with their files. Inline
drawings have the first colourway's colours; the colours are also hook classes, so the page's style
sheet shows another colourway without drawing anything again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from xml.etree import ElementTree

from markupsafe import Markup

from pieceproof.drawing.paint import cloth_class
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import ACCENT, HATCHES, INK, PALE_SEAM, Look
from pieceproof.drawing.svg import to_svg
from pieceproof.pages.choices import Axis, Combination, Variant, button_id, variants

BETWEEN_COPIES = 8
"""From a drawing for the screen down to its copy for paper, in CSS pixels."""
_COLOURED = (("stroke", ACCENT), ("fill", ACCENT), ("stroke", PALE_SEAM))
"""What of a drawing's own marks is not in its ink."""
_CLOTH = re.compile(r'(pp-cloth-[\w-]+)" fill="(#[0-9a-f]{6})"')
_FILE_INKS = "".join(f'[{part}="{ink}"]{{{part}:var(--ink,{ink})}}' for part, ink in _COLOURED)
_PAGE_INKS = "\n".join(f'.pp-drawing [{part}="{ink}"]{{{part}:{INK}}}' for part, ink in _COLOURED)


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


def for_screen_and_paper(svg: str, values: Mapping[str, int]) -> str:
    """A drawing twice in one file: in its colours, and below it hatched by value in black.

    A file's own style sheet cannot know that a page is printed; the page's style sheet shows the
    upper half on the screen and the lower one on paper, from the one file that is there already.
    """
    start, _, rest = svg.partition("\n")
    size = {key: int(ElementTree.fromstring(svg).attrib[key]) for key in ("width", "height")}
    height, lower = size["height"], size["height"] + BETWEEN_COPIES
    doubled = start.replace(f' height="{height}"', f' height="{height + lower}"', 1)
    doubled = doubled.replace(f' {height}"', f' {height + lower}"', 1)
    colours = dict(_CLOTH.findall(svg))
    used = {part: value for part, value in values.items() if cloth_class(part) in colours}
    fills = "".join(
        f".{cloth_class(part)}{{fill:var(--v{value},{colours[cloth_class(part)]})}}"
        for part, value in used.items()
    )
    hatched = "".join(f"--v{value}:url(#{_hatch_id(value)});" for value in sorted({*used.values()}))
    patterns = "".join(_pattern(value) for value in sorted({*used.values()}))
    drawn = rest.removesuffix("</svg>\n")
    return (
        f"{doubled}\n<defs>{patterns}</defs>\n<style>{fills}{_FILE_INKS}</style>\n"
        f'<g id="drawn">\n{drawn}</g>\n'
        f'<use href="#drawn" y="{lower}" style="{hatched}--ink:{INK}"/>\n</svg>\n'
    )


def print_rules(values: Mapping[str, int]) -> str:
    """Style rules that hatch the parts in inline drawings by their values on paper, to save ink."""
    hatched = "\n".join(
        f".pp-drawing .{cloth_class(part)}{{fill:url(#{_hatch_id(value)})!important}}"
        for part, value in values.items()
    )
    return f"@media print{{\n{hatched}\n{_PAGE_INKS}\n}}"


def hatches() -> Markup:
    """The hatches that `print_rules` names, as patterns for the page: those of hatched drawings."""
    return Markup("").join(_pattern(value) for value in HATCHES)


def _pattern(value: int) -> Markup:
    hatch = HATCHES[value]
    lines = ("M0 0H9", "M0 0V9")[: len(hatch.angles)]
    turn = hatch.angles[0] if hatch.angles else 0
    return Markup(
        '<pattern id="{}" patternUnits="userSpaceOnUse" width="9" height="9" '
        'patternTransform="rotate({:g}) scale({:g})"><path fill="#fff" d="M0 0H9V9H0z"/>'
        '<path stroke="#000" stroke-width="{:g}" d="{}"/></pattern>'
    ).format(
        _hatch_id(value),
        turn,
        hatch.spacing / 9,
        2 * hatch.weight * 9 / hatch.spacing,
        "".join(lines) or "M0 0",
    )


def _hatch_id(value: int) -> str:
    return f"pp-print-{value}"
