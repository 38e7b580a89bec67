"""Lightness, difference and contrast against published values."""

from __future__ import annotations

from fractions import Fraction

import pytest
from coloraide import Color

from pieceproof.colours import (
    STEPS,
    Eyes,
    contrast,
    difference,
    difference_seen,
    grey,
    lightness,
    luminance,
    on_screen,
    value_step,
)
from pieceproof.drawing.style import ACCENT, INK, PAPER, SOFT_INK, TEXTS
from pieceproof.model import Lab

# Table 1 of Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula", Color Research and
# Application 30 (2005) 21-30, doi 10.1002/col.20070: L, a, b of both colours, and the difference.
PAIRS = """\
50.0000,2.6772,-79.7751,50.0000,0.0000,-82.7485,2.0425
50.0000,3.1571,-77.2803,50.0000,0.0000,-82.7485,2.8615
50.0000,2.8361,-74.0200,50.0000,0.0000,-82.7485,3.4412
50.0000,-1.3802,-84.2814,50.0000,0.0000,-82.7485,1.0000
50.0000,-1.1848,-84.8006,50.0000,0.0000,-82.7485,1.0000
50.0000,-0.9009,-85.5211,50.0000,0.0000,-82.7485,1.0000
50.0000,0.0000,0.0000,50.0000,-1.0000,2.0000,2.3669
50.0000,-1.0000,2.0000,50.0000,0.0000,0.0000,2.3669
50.0000,2.4900,-0.0010,50.0000,-2.4900,0.0009,7.1792
50.0000,2.4900,-0.0010,50.0000,-2.4900,0.0010,7.1792
50.0000,2.4900,-0.0010,50.0000,-2.4900,0.0011,7.2195
50.0000,2.4900,-0.0010,50.0000,-2.4900,0.0012,7.2195
50.0000,-0.0010,2.4900,50.0000,0.0009,-2.4900,4.8045
50.0000,-0.0010,2.4900,50.0000,0.0010,-2.4900,4.8045
50.0000,-0.0010,2.4900,50.0000,0.0011,-2.4900,4.7461
50.0000,2.5000,0.0000,50.0000,0.0000,-2.5000,4.3065
50.0000,2.5000,0.0000,73.0000,25.0000,-18.0000,27.1492
50.0000,2.5000,0.0000,61.0000,-5.0000,29.0000,22.8977
50.0000,2.5000,0.0000,56.0000,-27.0000,-3.0000,31.9030
50.0000,2.5000,0.0000,58.0000,24.0000,15.0000,19.4535
50.0000,2.5000,0.0000,50.0000,3.1736,0.5854,1.0000
50.0000,2.5000,0.0000,50.0000,3.2972,0.0000,1.0000
50.0000,2.5000,0.0000,50.0000,1.8634,0.5757,1.0000
50.0000,2.5000,0.0000,50.0000,3.2592,0.3350,1.0000
60.2574,-34.0099,36.2677,60.4626,-34.1751,39.4387,1.2644
63.0109,-31.0961,-5.8663,62.8187,-29.7946,-4.0864,1.2630
61.2901,3.7196,-5.3901,61.4292,2.2480,-4.9620,1.8731
35.0831,-44.1164,3.7933,35.0232,-40.0716,1.5901,1.8645
22.7233,20.0904,-46.6940,23.0331,14.9730,-42.5619,2.0373
36.4612,47.8580,18.3852,36.2715,50.5065,21.2231,1.4146
90.8027,-2.0831,1.4410,91.1528,-1.6435,0.0447,1.4441
90.9257,-0.5406,-0.9208,88.6381,-0.8985,-0.7239,1.5381
6.7747,-0.2908,-2.4247,5.8714,-0.0985,-2.2286,0.6377
2.0776,0.0795,-1.1350,0.9033,-0.0636,-0.5514,0.9082
"""


@pytest.mark.parametrize("line", PAIRS.splitlines())
def test_ciede2000(line: str) -> None:
    """To the table's four places from the library, to our tenth from our own function."""
    lab = [Fraction(part) for part in line.split(",")]
    one, other = Lab(*lab[:3]), Lab(*lab[3:6])
    exact = Color("lab", [*map(float, lab[:3])]).delta_e(
        Color("lab", [*map(float, lab[3:6])]), method="2000", space="lab"
    )
    assert exact == pytest.approx(float(lab[6]), abs=5e-5)
    assert difference(one, other) == pytest.approx(float(lab[6]), abs=0.0501)


def test_lab_of_a_screen_colour() -> None:
    """#008000 is lab(46.2775 -47.5621 48.5837): W3C test files of CSS Color 4 (D50)."""
    found = Color("#008000").convert("lab")
    assert found[:3] == pytest.approx([46.2775, -47.5621, 48.5837], abs=0.02)
    assert lightness("#008000") == 46.3


def test_lightness_follows_the_constants_of_cie() -> None:
    """L* is kappa Y below epsilon: 24389/27 and 216/24389 (CIE 15); else 116 cbrt(Y) - 16."""
    for level in (1, 10, 40, 90, 128, 200, 255):
        colour = f"#{level:02x}{level:02x}{level:02x}"
        y = luminance(colour)
        expected = 24389 / 27 * y if y <= 216 / 24389 else 116 * y ** (1 / 3) - 16
        assert lightness(colour) == pytest.approx(expected, abs=0.06)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # W3C, Accessibility Conformance Testing rule "Text has minimum contrast": its examples.
        ("#333333", "#ffffff", 12.6),
        ("#000000", "#666666", 3.6),
        ("#000000", "#ffffff", 21),
        ("#0000ee", "#ffffff", 9.39),
        ("#aaaaaa", "#ffffff", 2.3),
        ("#777777", "#eeeeee", 3.85),
    ],
)
def test_contrast_of_published_cases(one: str, other: str, ratio: float) -> None:
    """The page cuts the ratio off; so ours may lie up to a last place above."""
    assert ratio - 0.005 <= contrast(one, other) < ratio + 0.1


def test_texts_of_drawings_can_be_read() -> None:
    """Text on paper 4.5, discs 3 (WCAG 2.2, 1.4.3 and 1.4.11); letters lie on a paper halo."""
    for face in TEXTS.values():
        behind = ACCENT if face.ink == PAPER else PAPER
        assert contrast(face.ink, behind) >= 4.5
    assert min(contrast(ink, PAPER) for ink in (INK, SOFT_INK, ACCENT)) >= 4.5


def test_five_value_steps() -> None:
    steps = [value_step(Lab(Fraction(level), Fraction(0), Fraction(0))) for level in range(101)]
    assert [steps.index(step) for step in (5, 4, 3, 2, 1)] == [0, 20, 40, 60, 80]
    assert steps[100] == 1
    assert len(STEPS) == 5


def test_a_grey_is_as_light_as_its_colour() -> None:
    for colour in ("#a8482f", "#2c7f86", "#f1e4cb", "#223347"):
        assert lightness(grey(colour)) == pytest.approx(lightness(colour), abs=0.3)
        assert difference(grey(colour), colour) > 0


def test_red_and_green_come_close_to_eyes_weak_in_green_and_not_in_blue() -> None:
    """That deutan and protan eyes mix up red and green is common knowledge (no source)."""
    tomato, fern = "#a0522d", "#556b2f"
    plain = difference(tomato, fern)
    assert difference_seen(tomato, fern, Eyes.DEUTAN) < plain / 2
    assert difference_seen(tomato, fern, Eyes.PROTAN) < plain / 2
    assert difference_seen(tomato, fern, Eyes.TRITAN) > plain / 2


def test_a_measured_colour_keeps_its_lightness_on_the_screen() -> None:
    lab = Lab(Fraction(52), Fraction(18), Fraction(-7))
    assert lightness(lab) == 52
    assert lightness(on_screen(lab)) == pytest.approx(52, abs=0.3)
