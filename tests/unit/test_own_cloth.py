"""Cloth that is there: what is cut from it, what is still to buy, and lists that cannot be read."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_shop import PLAIN

from pieceproof.cli import main
from pieceproof.compile import Sized, compile_pattern
from pieceproof.own_cloth import own_cloth_text, read_own_cloths, unknown_parts

LIST = b"""\
measure: inch
cloths:
  - {name: fat quarters of mist, plays: [ground], width: 20, length: 18, count: 2}
  - {name: remnant, plays: [ground, wing], width: 15 1/2, length: 11}
"""


def test_the_list_is_read() -> None:
    own, problems, _ = read_own_cloths("stash.yaml", LIST)
    assert problems == ()
    assert [(cloth.count, cloth.plays) for cloth in own.cloths] == [
        (2, ("ground",)),
        (1, ("ground", "wing")),
    ]


@given(st.binary(max_size=200))
@settings(max_examples=30, deadline=None)
def test_any_bytes(data: bytes) -> None:
    read_own_cloths("stash.yaml", data)


@pytest.fixture(scope="module")
def sized() -> Sized:
    """The smaller size of the small shop's runner: two stars."""
    return compile_pattern("eddy-runner", {"pattern.yaml": PLAIN.encode()}).sizes[0]


def test_what_is_cut_and_what_is_still_to_buy(sized: Sized) -> None:
    """The eight star points of two stars fit on the fat quarters with their corner squares."""
    own, _, _ = read_own_cloths("stash.yaml", LIST)
    text, faults = own_cloth_text(own, sized)
    assert faults == ()
    assert "fat quarters of mist" in text
    assert "1 of 2 used" in text
    assert "  background: nothing" in text
    assert "  star points: nothing" in text
    assert "  backing: " in text


@pytest.mark.parametrize(
    ("changed", "code", "line"),
    [
        ((b"[ground]", b"[grund]"), "undeclared", 3),
        ((b"width: 20", b"width: -20"), "bad-length", 3),
        ((b"width: 20", b"width: 0"), "bad-length", 3),
        ((b"count: 2", b"count: 10000000"), "bad-count", 3),
        ((b"plays: [ground], ", b""), "missing-key", 3),
        ((b"measure: inch", b"measure: mile"), "unknown-value", 1),
    ],
)
def test_a_wrong_list(sized: Sized, changed: tuple[bytes, bytes], code: str, line: int) -> None:
    own, problems, _ = read_own_cloths("stash.yaml", LIST.replace(*changed))
    problems = problems or tuple(unknown_parts(own, sized))
    assert [(problem.code, problem.place.line) for problem in problems] == [(code, line)]


def test_centimetres_are_converted(sized: Sized) -> None:
    """A sheet of 7.62 cm is exactly 3 in: the 3 in squares fit, and not one step more."""
    words = "measure: centimetre\ncloths:\n  - {name: band, plays: [ground], width: 50.8, "
    own, problems, _ = read_own_cloths(
        "stash.yaml", f"{words}length: 7.62, squaring: 0}}\n".encode()
    )
    assert problems == ()
    assert "1 of 1 used" in own_cloth_text(own, sized)[0]


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns" / "eddy-runner").mkdir(parents=True)
    (tmp_path / "patterns" / "eddy-runner" / "pattern.yaml").write_text(PLAIN, "utf-8")
    (tmp_path / "stash.yaml").write_bytes(LIST)
    words = ["--patterns", str(tmp_path / "patterns"), "stash", "eddy-runner"]
    assert main([*words, str(tmp_path / "stash.yaml")]) == 0
    assert "Still to buy:" in capsys.readouterr().out
    assert main([*words, str(tmp_path / "nothing.yaml")]) == 2
