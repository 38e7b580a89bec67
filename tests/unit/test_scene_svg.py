"""Scenes and their SVG: geometry, one path per cloth, safe words, stable text."""

import doctest
import re
from itertools import groupby, pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction

from pieceproof.drawing import hatch, markup, outlines, paint, scene
from pieceproof.drawing.frame import fit
from pieceproof.drawing.marks import arrow_shape, measure_lines, reaches
from pieceproof.drawing.markup import escaped, number, path_data
from pieceproof.drawing.scene import (
    MIRROR,
    Area,
    AreaKind,
    Arrow,
    ArrowKind,
    Box,
    Group,
    Letter,
    Line,
    LineKind,
    Measure,
    Note,
    Scene,
    Side,
    TextKind,
    flat,
    shifted,
    turned,
)
from pieceproof.drawing.style import HATCHES, TEXTS, Look, luminance
from pieceproof.drawing.svg import to_svg
from pieceproof.lengths import square_root

SVG = "{http://www.w3.org/2000/svg}"
COLOURS = {"ground": "#efe6d2", "dark point": "#1d2a44"}


def square(x, y, side, cloth="ground", value=1, kind=AreaKind.PATCH, layer=0):
    corners = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    return Area(corners, cloth, value, kind, layer)


def four_patch():
    return Scene(
        title="Four patch",
        desc="Two light and two dark squares.",
        box=Box(0, 0, Fraction(13, 2), Fraction(13, 2)),
        items=(
            square(0, 0, Fraction(13, 4)),
            square(Fraction(13, 4), Fraction(13, 4), Fraction(13, 4)),
            square(Fraction(13, 4), 0, Fraction(13, 4), "dark point", 5),
            square(0, Fraction(13, 4), Fraction(13, 4), "dark point", 5),
            Line(((Fraction(13, 4), 0), (Fraction(13, 4), Fraction(13, 2)))),
            Line(((0, 0), (1, 1)), LineKind.CUT),
            Letter((Fraction(13, 8), Fraction(13, 8)), "A"),
            Letter((0, 0), "1", TextKind.STEP),
            Note((Fraction(13, 4), Fraction(13, 2)), "four\npatch"),
            Arrow((2, 2), (4, 2)),
            Arrow((2, 5), (4, 5), ArrowKind.PRESS_OPEN),
            Measure((0, 0), (Fraction(13, 2), 0), '6 1/2"'),
            Measure((Fraction(13, 2), 0), (Fraction(13, 2), Fraction(13, 2)), '6 1/2" finished', 2),
        ),
    )


def drawn(look=Look.COLOUR, width=360, shown=None):
    return ElementTree.fromstring(to_svg(shown or four_patch(), look, "four", width, COLOURS))


def by_class(root, name):
    return [each for each in root.iter() if name in each.get("class", "").split()]


def words(root):
    return [text.text for text in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("module", [hatch, markup, outlines, paint, scene])
def test_examples_in_docstrings(module):
    assert doctest.testmod(module).failed == 0


# Groups


def test_turning_is_clockwise_on_the_page():
    # y is down, so a quarter turn takes the top right corner to the bottom right.
    (letter,) = flat([Group([Letter((1, -1), "A")], turned(1))])
    assert letter.at == (1.0, 1.0)


def test_inner_transform_comes_first():
    inner = Group([Letter((1, 0), "A")], shifted(Fraction(1, 2), 0))
    (letter,) = flat([Group([inner], turned(1))])
    assert letter.at == (0.0, 1.5)


def test_four_quarters_are_none_and_a_mirror_undoes_itself():
    area = square(1, 2, 3)
    once = flat([area])
    assert flat([Group([Group([area], turned(3))], turned(1))]) == once
    assert flat([Group([Group([area], MIRROR)], MIRROR)]) == once


def test_measure_stays_outside_a_mirrored_shape():
    (measure,) = flat([Group([Measure((0, 0), (4, 0), '4"')], MIRROR)])
    lines = measure_lines(measure.start, measure.end, measure)
    assert lines.text_at[1] < 0


@pytest.mark.parametrize("quarter", range(4))
def test_measures_walked_clockwise_stay_outside(quarter):
    (measure,) = flat([Group([Measure((-2, -2), (2, -2), '4"')], turned(quarter))])
    x, y = measure_lines(measure.start, measure.end, measure).text_at
    assert max(abs(x), abs(y)) > 2


def test_exact_roots_are_places_too():
    (letter,) = flat([Group([Letter((square_root(2), 0), "A")], shifted(square_root(2), 0))])
    assert letter.at == (pytest.approx(8**0.5), 0.0)


# Fitting


@pytest.mark.parametrize("width", [280, 360, 900])
def test_drawing_has_the_width_asked_for(width):
    root = drawn(width=width)
    assert root.get("width") == str(width)
    assert root.get("viewBox") == f"0 0 {width} {root.get('height')}"


def test_bare_box_fills_the_width_between_margins():
    frame = fit(reaches(Area(((0, 0), (10, 0), (10, 5), (0, 5)))), 116)
    assert (frame.scale, frame.width, frame.height) == (10.0, 116, 66)


@given(
    st.lists(
        st.tuples(st.integers(0, 20), st.integers(0, 20), st.text("ABC 1/2", max_size=12)),
        max_size=6,
    ),
    st.sampled_from(Side),
    st.sampled_from([120, 360, 900]),
)
def test_nothing_is_cut_off(notes, side, width):
    items = [Note((x, y), text, side) for x, y, text in notes]
    all_reaches = [r for item in [square(0, 0, 20), *items] for r in reaches(item)]
    frame = fit(all_reaches, width)
    for reach in all_reaches:
        x, y = reach.x * frame.scale + frame.left, reach.y * frame.scale + frame.top
        assert x - reach.left >= -0.01
        assert y - reach.up >= -0.01
        assert x + reach.right <= frame.width + 0.01
        assert y + reach.down <= frame.height + 0.01


def test_texts_too_wide_for_the_width_widen_the_drawing():
    shown = Scene("t", "", Box(0, 0, 1, 1), [Note((0, 0), "a very long remark " * 9)])
    assert int(drawn(shown=shown).get("width")) > 360


def test_box_without_width_is_refused():
    with pytest.raises(ValueError, match="width"):
        to_svg(Scene("t", "", Box(0, 0, 0, 1), []), Look.INK, "t", 360)


def test_letter_is_left_out_where_its_shape_is_too_small():
    shown = Scene("t", "", Box(0, 0, 40, 4), [Letter((2, 2), "A", room=2)])
    assert words(drawn(shown=shown)) == []
    assert words(drawn(shown=shown, width=900)) == ["A", "A"]


# Looks


def test_one_path_per_cloth_in_its_colour():
    root = drawn()
    (dark,) = by_class(root, "pp-cloth-dark_point")
    (light,) = by_class(root, "pp-cloth-ground")
    assert (dark.get("fill"), light.get("fill")) == ("#1d2a44", "#efe6d2")
    assert dark.get("d").count("Z") == light.get("d").count("Z") == 2


def test_touching_patches_are_all_outlined():
    assert all(float(path.get("stroke-width")) > 0 for path in by_class(drawn(), "pp-patch"))


def test_ink_look_has_hatching_by_value_and_no_cloth_colour():
    root = drawn(Look.INK)
    assert by_class(root, "pp-hatch-5")
    assert not by_class(root, "pp-hatch-1")
    assert {path.get("fill") for path in by_class(root, "pp-patch")} == {"#ffffff"}


def test_outline_look_has_neither_hatching_nor_colour():
    root = drawn(Look.OUTLINE)
    assert not by_class(root, "pp-hatch-5")
    assert {path.get("fill") for path in by_class(root, "pp-patch")} == {"#ffffff"}


def test_no_colour_in_a_drawing_without_colours():
    for look in (Look.INK, Look.OUTLINE):
        text = to_svg(four_patch(), look, "four", 360)
        channels = [re.findall("..", colour) for colour in re.findall(r'"#(\w{6})"', text)]
        # Inks are warm greys: no channel stands out by more than 20 of 255.
        assert all(int(max(rgb), 16) - int(min(rgb), 16) <= 20 for rgb in channels)


def test_hatches_darken_from_value_to_value():
    # Share of paper a hatch of lines covers, overlaps of crossed lines taken off.
    covered = []
    for value in sorted(HATCHES):
        bare = 1.0
        for _ in HATCHES[value].angles:
            bare *= 1 - HATCHES[value].weight / HATCHES[value].spacing
        covered.append(1 - bare)
    assert all(b - a >= 0.07 for a, b in pairwise(covered))


def test_neighbouring_hatches_differ_in_angle_as_well():
    angles = [set(HATCHES[value].angles) for value in sorted(HATCHES)]
    assert all(a != b for a, b in pairwise(angles))


def test_no_hatch_along_the_usual_seams():
    # Seams of patchwork mostly run at multiples of 45 degrees; hatching must not pose as one.
    every = [angle for each in HATCHES.values() for angle in each.angles]
    assert all(min(angle % 45, 45 - angle % 45) >= 15 for angle in every)


def test_letters_can_be_read_on_a_phone():
    assert min(face.size for face in TEXTS.values()) >= 12


def test_texts_have_enough_contrast():
    # WCAG 2.2, 1.4.3: at least 4.5 to 1; texts stand on paper (their halo) or on a disc.
    inks = {
        *(TEXTS[kind].ink for kind in TEXTS if kind is not TextKind.STEP),
        "#97301f",
    }
    assert all(1.05 / (luminance(ink) + 0.05) >= 4.5 for ink in inks)


def test_luminance_of_published_pairs():
    # WCAG 2.2: black on white is 21 to 1. Common practice: #767676 is the lightest grey that
    # passes 4.5 to 1 on white, #777777 fails.
    assert (luminance("#ffffff") + 0.05) / (luminance("#000000") + 0.05) == pytest.approx(21)
    assert 1.05 / (luminance("#767676") + 0.05) >= 4.5 > 1.05 / (luminance("#777777") + 0.05)


def test_every_text_but_a_step_has_its_halo_below_it():
    root = drawn()
    places = [(text.get("x"), text.get("y"), text.text) for text in root.iter(f"{SVG}text")]
    texts = [place for place in places if place[2] != "1"]
    half = len(texts) // 2
    assert texts[:half] == texts[half:]


def test_pale_seam_between_dark_cloths_only():
    dark = [square(0, 0, 1, "dark point"), square(1, 0, 1, "dark point")]
    mixed = [square(0, 0, 1), square(1, 0, 1, "dark point")]
    box = Box(0, 0, 2, 1)
    assert by_class(drawn(shown=Scene("t", "", box, dark)), "pp-dark-seam")
    assert not by_class(drawn(shown=Scene("t", "", box, mixed)), "pp-dark-seam")


def test_higher_layer_is_painted_later():
    items = [square(0, 0, 1, "dark point", layer=1), square(0, 0, 2)]
    classes = [path.get("class") for path in drawn(shown=Scene("t", "", Box(0, 0, 2, 2), items))]
    assert classes.index("pp-patch pp-cloth-dark_point") > classes.index("pp-patch pp-cloth-ground")


def test_offcuts_and_ghosts_are_never_filled():
    items = [
        square(0, 0, 1, "dark point", 5, AreaKind.OFFCUT),
        square(1, 0, 1, "dark point", 5, AreaKind.GHOST),
    ]
    for look in Look:
        root = drawn(look, shown=Scene("t", "", Box(0, 0, 2, 1), items))
        fills = {p.get("fill") for p in by_class(root, "pp-offcut") + by_class(root, "pp-ghost")}
        assert fills == {"#ffffff", "none"}
        assert not by_class(root, "pp-hatch-5")


def test_short_arrow_has_a_shorter_head():
    heads = [arrow_shape((0, 0), (length, 0), ArrowKind.PRESS).heads[0] for length in (5, 50)]
    lengths = [max(x for x, _ in head) - min(x for x, _ in head) for head in heads]
    assert lengths[0] == pytest.approx(3.0)
    assert lengths[1] == pytest.approx(9.0)
    assert arrow_shape((1, 1), (1, 1), ArrowKind.PRESS).heads == ()


# Safe, stable text


def test_same_scene_same_text():
    assert len({to_svg(four_patch(), Look.INK, "four", 360) for _ in range(3)}) == 1


def test_named_for_those_who_cannot_see_it():
    # WAI-ARIA 1.2: role img, named by the elements that aria-labelledby lists.
    root = drawn()
    assert root.get("role") == "img"
    ids = {each.get("id"): each.text for each in root.iter() if each.get("id")}
    assert [ids[name] for name in root.get("aria-labelledby").split()] == [
        "Four patch",
        "Two light and two dark squares.",
    ]
    assert all(name.startswith("four-") for name in ids)


def test_only_what_all_renderers_draw_alike():
    for look in Look:
        root = drawn(look)
        names = {each.tag.removeprefix(SVG) for each in root.iter()}
        assert names <= {"svg", "title", "desc", "rect", "path", "circle", "g", "text"}
        assert not {"style", "href", "clip-path", "filter"} & {
            k for e in root.iter() for k in e.attrib
        }


any_text = st.text(st.characters(codec=None, exclude_categories=[]), max_size=30)


@given(any_text, any_text, any_text)
@settings(max_examples=200)
def test_any_words_give_wellformed_xml(title, desc, text):
    box = Box(0, 0, 4, 4)
    items = [Letter((1, 1), text), Note((2, 2), text), Measure((0, 0), (4, 0), text)]
    items.append(Area(((0, 0), (4, 0), (4, 4)), text))
    source = to_svg(Scene(title, desc, box, items), Look.COLOUR, "x", 360, {text: "#123456"})
    root = ElementTree.fromstring(source.encode())
    assert not [each for each in root.iter() if each.tag == f"{SVG}script"]
    assert {each.tag.removeprefix(SVG) for each in root.iter()} <= {
        *("svg", "title", "desc", "rect", "path", "circle", "g", "text")
    }


def test_words_are_escaped_and_control_characters_replaced():
    assert escaped('<b a="1">&') == "&lt;b a=&quot;1&quot;&gt;&amp;"
    assert escaped("a\x00b\x1bc\ud800\ufffe") == "a\ufffdb\ufffdc\ufffd\ufffd"
    assert escaped(" two\n\tlines ") == "two lines"


@given(st.floats(-1e6, 1e6))
def test_numbers_are_plain(value):
    written = number(value)
    assert re.fullmatch(r"-?(0|[1-9]\d*)(\.\d?[1-9])?", written)
    assert written != "-0"
    assert abs(float(written) - value) <= 0.005 + 1e-9


def test_unreal_numbers_are_refused():
    for value in (float("nan"), float("inf")):
        with pytest.raises((ValueError, OverflowError)):
            number(value)


@given(st.lists(st.tuples(st.floats(-500, 500), st.floats(-500, 500)), min_size=1, max_size=40))
def test_rounding_of_a_path_never_adds_up(run):
    places = [(round(x * 100), round(y * 100)) for x, y in run]
    assert _walked(path_data([run])) == [place for place, _ in groupby(places)]


def _walked(data):
    """Follow path data by SVG 1.1 section 8.3, in hundredths."""
    x = y = 0
    places = []
    for letter, numbers in re.findall(r"([Mhvl])([-\d. ]+)", data):
        steps = [round(float(each) * 100) for each in numbers.split()]
        if letter == "M":
            x, y = steps
        elif letter == "h":
            x += steps[0]
        elif letter == "v":
            y += steps[0]
        else:
            x, y = x + steps[0], y + steps[1]
        places.append((x, y))
    return places


@pytest.mark.parametrize("ident", ["", "1a", "a b", 'a"', "ä"])
def test_ident_that_is_no_name_is_refused(ident):
    with pytest.raises(ValueError, match="not an id"):
        to_svg(four_patch(), Look.INK, ident, 360)


@pytest.mark.parametrize("colour", ["red", "#FFF", "#12345", "#1234567", "url(#x)"])
def test_colour_that_is_no_colour_is_refused(colour):
    with pytest.raises(ValueError, match="rrggbb"):
        to_svg(four_patch(), Look.COLOUR, "x", 360, {**COLOURS, "ground": colour})
