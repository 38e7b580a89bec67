"""Colours as the eye has them: lightness, difference, contrast, other people's eyes.

In: the colour of a cloth, as "#rrggbb" or as measured CIELAB. Out: numbers, and colours as
"#rrggbb". All formulas are the library's, which tests hold against published values. It knows no
patchwork.

Lightness is CIE L* under illuminant D50, from 0 to 100 (CIE 15; CSS Color 4 has the same white for
``lab()``). Differences are CIEDE2000 (Sharma, Wu and Dalal, 2005). What people with a
colour-vision deficiency see is simulated for its full form.
"""

from __future__ import annotations

from enum import Enum
from functools import cache

from coloraide import Color

from pieceproof.model import Lab

STEPS = ("very light", "light", "medium", "dark", "very dark")
"""Five value steps, from the lightest, each a fifth of the way from white to black in L*."""


class Eyes(Enum):
    """Colour-vision deficiencies, by what is said of them."""

    PROTAN = "to eyes that are weak in red"
    DEUTAN = "to eyes that are weak in green"
    TRITAN = "to eyes that are weak in blue"


def lightness(colour: str | Lab) -> float:
    """CIE L*, 0 for black to 100 for white, to a tenth."""
    return round(float(_color(colour).convert("lab")["l"]), 1)


def value_step(colour: str | Lab) -> int:
    """The value step, 1 for the lightest to 5 for the darkest."""
    return min(5, max(1, 5 - int(lightness(colour) // 20)))


def difference(one: str | Lab, other: str | Lab) -> float:
    """CIEDE2000 between two colours, to a tenth."""
    return round(float(_color(one).delta_e(_color(other), method="2000", space="lab")), 1)


def difference_seen(one: str | Lab, other: str | Lab, eyes: Eyes) -> float:
    """CIEDE2000 between what such eyes see of two colours, to a tenth."""
    seen = [_color(colour).filter(_FILTERS[eyes], in_place=False) for colour in (one, other)]
    return round(float(seen[0].delta_e(seen[1], method="2000", space="lab")), 1)


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, from 1 to 21 (WCAG 2.2, "contrast ratio")."""
    return float(_color(one).contrast(_color(other), method="wcag21"))


@cache
def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.2, "relative luminance")."""
    return float(_color(colour).luminance())


def on_screen(colour: str | Lab) -> str:
    """The nearest colour that a screen shows, as "#rrggbb"."""
    return str(_color(colour).convert("srgb").fit("srgb").to_string(hex=True))


@cache
def grey(colour: str) -> str:
    """The grey of the same lightness, as "#rrggbb"."""
    level = _color(colour).convert("lab")["l"]
    return str(Color("lab", [level, 0, 0]).convert("srgb").fit("srgb").to_string(hex=True))


@cache
def _color(colour: str | Lab) -> Color:
    if isinstance(colour, Lab):
        return Color("lab", [float(colour.lightness), float(colour.a), float(colour.b)])
    return Color(colour)


_FILTERS = {Eyes.PROTAN: "protan", Eyes.DEUTAN: "deutan", Eyes.TRITAN: "tritan"}
