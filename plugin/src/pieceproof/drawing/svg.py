"""A scene as SVG.

Goes in: a `Scene`, a look, the colours of its cloths, and a width. Comes out: one `<svg>` element
as text. It reads and writes no files and does not decide what is shown.

The SVG keeps to what browsers, CairoSVG and WeasyPrint draw alike: paths, circles, texts of one
run, hexadecimal colours as attributes. Class names (`pp-...`) let a page's own CSS override them.
"""

import re
from collections.abc import Mapping, Sequence

from .frame import Frame, fit
from .marks import reaches
from .markup import escaped, tag
from .paint import Sheet, painted
from .photographs import Photograph
from .scene import Area, Flat, Scene, flat
from .style import PAPER, Look

_IDENT = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_COLOUR = re.compile(r"#[0-9a-f]{6}")


def to_svg(
    scene: Scene,
    look: Look,
    ident_prefix: str,
    width_px: int,
    colours: Mapping[str, str] | None = None,
    prints: Mapping[str, Photograph] | None = None,
) -> str:
    """Return the drawing as one `<svg>` element without XML declaration.

    Args:
        scene: what to show.
        look: with cloth colours, hatched by value, or outlines only.
        ident_prefix: starts every id; unique on the page.
        width_px: width in CSS pixels; the height follows from the scene. Texts that would leave
            the cloth less than a fifth of it make the drawing wider instead.
        colours: for `Look.COLOUR`, "#rrggbb" of every cloth in the scene.
        prints: for `Look.COLOUR`, photographs that are shown in place of a cloth's colour.

    Raises:
        ValueError: an ident that is no XML name, a colour that is not "#rrggbb", a box without
            width. KeyError: a cloth without colour, a value outside 1 to 5.
    """
    if not _IDENT.fullmatch(ident_prefix):
        raise ValueError(f"not an id: {ident_prefix!r}")
    items = flat(scene.items)
    frame = frame_of(scene, items, width_px)
    sheet = Sheet(frame, look, _checked(colours or {}), ident_prefix, prints or {})
    body = "\n".join([*_heading(scene, ident_prefix), _paper(sheet.frame), *painted(items, sheet)])
    return tag("svg", _root(scene, sheet, ident_prefix), f"\n{body}\n") + "\n"


def frame_of(scene: Scene, items: Sequence[Flat], width: int) -> Frame:
    """Where a scene's cloth falls in a drawing that is ``width`` pixels wide."""
    x, y = float(scene.box.x), float(scene.box.y)
    right, bottom = x + float(scene.box.width), y + float(scene.box.height)
    corners = Area(((x, y), (right, bottom)))
    return fit([reach for item in (corners, *items) for reach in reaches(item)], width)


def _checked(colours: Mapping[str, str]) -> Mapping[str, str]:
    for cloth, colour in colours.items():
        if not _COLOUR.fullmatch(colour):
            raise ValueError(f"colour of {cloth}: {colour!r} is not #rrggbb")
    return colours


def _root(scene: Scene, sheet: Sheet, prefix: str) -> dict[str, str | float]:
    frame = sheet.frame
    named = f"{prefix}-title {prefix}-desc" if scene.desc else f"{prefix}-title"
    return {
        "xmlns": "http://www.w3.org/2000/svg",
        "class": f"pp-drawing pp-look-{sheet.look}",
        "width": frame.width,
        "height": frame.height,
        "viewBox": f"0 0 {frame.width} {frame.height}",
        "role": "img",
        "aria-labelledby": named,
    }


def _heading(scene: Scene, prefix: str) -> list[str]:
    title = tag("title", {"id": f"{prefix}-title"}, escaped(scene.title))
    desc = tag("desc", {"id": f"{prefix}-desc"}, escaped(scene.desc))
    return [title, desc] if scene.desc else [title]


def _paper(frame: Frame) -> str:
    size = {"width": frame.width, "height": frame.height}
    return tag("rect", {"class": "pp-paper", **size, "fill": PAPER})
