"""The site's colours can be read in both modes.

Bounds and formula: Web Content Accessibility Guidelines 2.2, success criteria 1.4.3 (text, 4.5)
and 1.4.11 (controls and focus, 3), and the definitions of relative luminance and contrast ratio.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

CSS = Path(__file__).parents[2] / "site_src" / "assets" / "css" / "ferrygate.css"
TEXT = 4.5
CONTROL = 3.0

# (what, in front, behind, least ratio)
PAIRS = (
    ("text", "ink", "page", TEXT),
    ("text on a panel", "ink", "surface", TEXT),
    ("text on a strip's row", "ink", "river-soft", TEXT),
    ("text in a note", "ink", "marigold-soft", TEXT),
    ("text in a caution", "ink", "madder-soft", TEXT),
    ("a caution's first words", "madder", "madder-soft", TEXT),
    ("small text", "ink-soft", "page", TEXT),
    ("small text on a panel", "ink-soft", "surface", TEXT),
    ("small text on a strip's row", "ink-soft", "river-soft", TEXT),
    ("a link", "river", "page", TEXT),
    ("a link on a panel", "river", "surface", TEXT),
    ("what is chosen", "river-ink", "river", TEXT),
    ("a letter", "surface", "ink", TEXT),
    ("a step's number", "madder", "page", TEXT),
    ("text on drawing paper", "paper-ink", "paper", TEXT),
    ("the edge of a control", "edge", "page", CONTROL),
    ("the edge of a control on a panel", "edge", "surface", CONTROL),
    ("focus", "focus", "page", CONTROL),
    ("focus on a panel", "focus", "surface", CONTROL),
)


def tokens(mode: str) -> dict[str, str]:
    """The colour tokens in force in a mode, as six hexadecimal digits."""
    found: dict[str, str] = {}
    for selector, body in re.findall(
        r"([^{}]*)\{([^{}]*)\}", CSS.read_text().split("@media print")[0]
    ):
        scheme = re.search(r'data-md-color-scheme="(\w+)"', selector)
        if ":root" in selector or (scheme and scheme[1] == mode):
            found.update(re.findall(r"--([\w-]+): #([0-9a-f]{6});", body))
    return found


def luminance(colour: str) -> float:
    """Relative luminance of six hexadecimal digits."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, from 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_formula_against_known_ends() -> None:
    assert contrast("000000", "ffffff") == pytest.approx(21)
    assert contrast("777777", "ffffff") == pytest.approx(4.48, abs=0.005)  # WCAG's near miss


@pytest.mark.parametrize("mode", ["default", "slate"])
@pytest.mark.parametrize(("what", "front", "behind", "least"), PAIRS, ids=[p[0] for p in PAIRS])
def test_contrast(mode: str, what: str, front: str, behind: str, least: float) -> None:
    colours = tokens(mode)
    ratio = contrast(colours[front], colours[behind])
    assert ratio >= least, f"{what}: {ratio:.2f} in {mode}"
