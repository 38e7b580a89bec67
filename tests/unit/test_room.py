"""What the page says of room, narrow cloth and long strips, for one cloth worked out on paper."""

from types import SimpleNamespace
from typing import cast

from cloth_samples import published
from quicktions import Fraction

from pieceproof.compile import Sized
from pieceproof.pages.room import room_notes
from pieceproof.requirements import need_for, requirements

F = Fraction


def notes(fabric: str, width: int, unit: str) -> str:
    design, publication = published("heron-landing")[1]
    found, _ = requirements(design, publication, [F(42), F(40)])
    sized = cast(Sized, SimpleNamespace(design=design, requirements=found))
    need = need_for(found, (fabric,), F(width))
    told = dict(room_notes({("middle", str(width)): (sized, need)}))
    return " ".join(told["middle", str(width), unit])


def test_cuts_come_first() -> None:
    """Three strips; 20 A and 20 B are 40 segments, two of which end where strips do; eight B are
    trimmed from taller ones.
    """
    told = (
        "53 cuts: 1 to square the cloth, 3 for strips, 3 to true an end of each, 38 across strips"
    )
    for unit in ("yards", "metres"):
        assert notes("ground", 42, unit).startswith(f"{told} and 8 to trim or divide segments. ")


def test_room_in_the_pattern_s_own_unit() -> None:
    """13 in of 18 are used: 5 in hold one strip of either height, each a whole row of pieces."""
    words = notes("ground", 42, "yards")
    assert '5" of the length is left when all is cut' in words
    assert '1 more strip of 4 1/2" or 1 more strip of 3"' in words
    assert "14 A or 16 B more" in words


def test_a_metre_is_not_a_yard() -> None:
    """Two inches at least are left of the metric length, which is another one than half a yard."""
    words = notes("ground", 42, "metres")
    assert ' At least 2" of the length is left when all is cut.' in words
    assert "the ends of strips alone give 2 B more, but no more A" in words


def test_narrower_cloth() -> None:
    words = notes("ground", 42, "yards")
    assert 'These cuts fit on cloth down to 42". If yours is narrower, choose 40" above' in words
    assert "on narrower cloth count what is missing" in notes("ground", 40, "yards")


def test_other_ways_to_cut_long_strips() -> None:
    words = notes("water", 42, "yards")
    assert "diagonal joins, this cloth takes 1/2 yd" in words
    assert "straight joins, it takes 1/2 yd or along the selvage, without joins, it takes" in words
    assert "it takes 1 3/4 yd" in words
