"""A cover's pictures: inside the room, apart from each other, the first one largest."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from pieceproof.booklet.cover import Wall, spots
from pieceproof.booklet.wording import page_html, prose_html, sentence_html

walls = st.builds(
    Wall, st.floats(100, 190), st.floats(80, 170), st.floats(0.4, 5), st.floats(4, 11)
)
NEAR = 1e-6


@given(walls, st.integers(1, 4))
def test_pictures_keep_their_shape_and_do_not_overlap(wall: Wall, count: int) -> None:
    found = spots(wall, count)
    assert len(found) == count
    for at, spot in enumerate(found):
        assert abs(spot.width - spot.height * wall.ratio) < NEAR
        assert 0 < spot.width <= found[0].width + NEAR
        assert spot.left >= -NEAR
        assert spot.left + spot.width <= wall.width + NEAR
        assert spot.top >= -NEAR
        assert spot.top + spot.height + wall.name <= wall.height + NEAR
        for other in found[:at]:
            beside = spot.left >= other.left + other.width
            assert beside or spot.top >= other.top + other.height + wall.name


def test_measurements_stay_on_one_line() -> None:
    nbsp, slash = "\u00a0", "\u2044"
    assert sentence_html('Sew 3 1/2" x 4" on **A**.') == (
        f'Sew 3{nbsp}1{slash}2&#34;{nbsp}x{nbsp}4&#34; on <b class="letter">A</b>.'
    )
    assert prose_html('<img alt="2 cm">7.5 cm') == f'<img alt="2 cm">7.5{nbsp}cm'
    marked = '<span class="length">2 <span class="fraction">3/8</span> yd</span>'
    assert page_html(marked) == f"2{nbsp}3{slash}8{nbsp}yd"
