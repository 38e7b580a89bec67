"""`pieceproof trace`: the sum that is printed for a piece gives the size that is published."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from quicktions import Fraction

from pieceproof.cli import main
from pieceproof.compile import DESIGN_FILE
from pieceproof.fact_files import parse_facts
from pieceproof.lengths import Number, parse_length, sign
from pieceproof.methods import METHODS
from pieceproof.model import Measure
from pieceproof.reading import read_pattern
from pieceproof.ways import Way
from pieceproof.writing.tracing import Trace, letter_in, sum_of, traces_of

PATTERNS = Path(__file__).parents[2] / "patterns"
SLUGS = sorted(path.parent.name for path in PATTERNS.glob(f"*/{DESIGN_FILE}"))


@cache
def traces(slug: str) -> dict[str, Trace]:
    """The traces of the smallest size."""
    file = PATTERNS / slug / DESIGN_FILE
    designs, problems, _ = read_pattern(
        f"patterns/{slug}/{DESIGN_FILE}", file.read_bytes(), METHODS
    )
    assert not problems
    whole = {design.size: traces_of(designs, design.size) for design in designs[:1]}
    return dict(whole[designs[0].size])


def amount(words: str) -> Fraction:
    length = parse_length(words)
    assert length is not None, words
    return length


@pytest.mark.parametrize("slug", SLUGS)
def test_the_arithmetic_of_every_piece_gives_the_published_size(slug: str) -> None:
    """The printed amounts are added up again here; the published size is that of the facts."""
    found = traces(slug)
    size = next(iter(found.values())).design.size
    facts = parse_facts((PATTERNS / slug / f"facts-{size}.txt").read_text("utf-8"))
    published = {f.key.split(",")[0]: f.published for f in facts if f.key.endswith(", cut")}
    for letter, trace in found.items():
        piece, measure = trace.piece, trace.design.measure
        sides = [amount(side) for side in published[f"piece {letter}"].split(" x ")]
        assert sides == [piece.short, piece.long], letter
        assert sum(use.count for use in trace.uses) == piece.count, letter
        for use in trace.uses:
            assert [use.short.exact, use.long.exact] == [piece.needed_short, piece.needed_long]
            for way, cut in ((use.short, piece.short), (use.long, piece.long)):
                assert way.shares, letter
                assert cut == way.on_ruler(measure.step) or way.reason, (letter, way)
                assert_adds_up(way, cut, measure)


def assert_adds_up(way: Way, cut: Fraction, measure: Measure) -> None:
    """Shares, their sum, the ruler's step and the rest, each as it is printed."""
    lines = list(sum_of(way, cut, measure))
    shares, (total, *rest) = lines[: len(way.shares)], lines[len(way.shares) :]
    assert total.sign == "="
    if not any("root" in line.amount for line in shares):
        assert sum(amount(line.amount) for line in shares) == amount(total.amount)
    assert sign(way.on_ruler(measure.step) - way.exact) >= 0
    at = total
    for line in rest:
        if line.sign == "+":
            assert amount(at.amount) + amount(line.amount) == cut
        at = line
    assert amount(at.amount) == cut
    assert 0 <= way.on_ruler(measure.step) - sum_taken(way) < measure.step


def sum_taken(way: Way) -> Number:
    return sum((share.taken for share in way.shares), Fraction(0))


def test_a_letter_is_found_in_a_fact() -> None:
    assert letter_in("d") == "D"
    assert letter_in("piece D, star centres, cut") == "D"


def test_why_is_a_4_7_8(capsys: pytest.CaptureFixture[str]) -> None:
    """Finished size and 7/8: common practice for a pair of half-square triangles."""
    assert main(["--patterns", str(PATTERNS), "trace", "weir-pool", "A"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("piece A, background, Pram: 4 7/8 x 4 7/8, 24 of it\n")
    assert "      4            finished side\n    + 7/8 " in said
    assert "patterns/weir-pool/pattern.yaml:21: size: 4\n" in said


def test_a_wrong_letter_lists_what_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--patterns", str(PATTERNS), "trace", "weir-pool", "Q"]) == 2
    assert "there is no piece or fact `Q`\npieces: A, B, C" in capsys.readouterr().err
