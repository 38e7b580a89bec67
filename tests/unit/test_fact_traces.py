"""`pieceproof trace` of facts: the printed amounts, added up again, give the published value."""

from __future__ import annotations

import operator
import re
from functools import cache
from pathlib import Path

import pytest
from quicktions import Fraction
from small_shop import PLAIN

from pieceproof.cli import main
from pieceproof.compile import DESIGN_FILE, Sized, compile_pattern
from pieceproof.lengths import parse_length
from pieceproof.writing.fact_traces import fact_trace
from pieceproof.writing.lines import Line

PATTERNS = Path(__file__).parents[2] / "patterns"
SLEEVE = "sleeve: {fabric: edge}\n"
WORKED = {"+": operator.add, "-": operator.sub, "x": operator.mul, "/": operator.truediv}
KINDS = (
    r"finished size, (width|height)",
    r"unit .*, (make|use|rounds|spare)",
    r"block .*, (make|use|rounds|spare|finished, width|unfinished, height)",
    r"quilt centre, (finished|unfinished), (width|height)",
    r"top, use",
    r"binding, length",
    r"(backing|batting), size, (width|height)",
    r"sleeve, (cut width|length)",
    r".*, usable width [^,]+, (strips in all|needed|yards|metres|room left|cuts|join .*)",
    r".*, usable width [^,]+, back, (panels of one back|each length|total)",
)
"""Facts whose sums are asked for; each kind is met in the patterns below."""


@cache
def sized(slug: str) -> Sized:
    """One size of the shop's smallest pattern, or of a runner with all that can be finished."""
    data = (PLAIN + SLEEVE).encode()
    if slug != "runner":
        data = (PATTERNS / slug / DESIGN_FILE).read_bytes()
    found = compile_pattern(slug, {DESIGN_FILE: data})
    assert not found.problems
    return found.sizes[0]


def amount(text: str) -> Fraction:
    length = parse_length(text)
    return Fraction(0) if length is None else length


def added_up(lines: tuple[Line, ...]) -> None:
    """Each `=` that follows amounts with signs is their sum, product or difference."""
    total = Fraction(0)
    for line in lines:
        value = amount(line.amount)
        if line.sign == "=" and "rounded up" not in line.words and "ruler" not in line.words:
            assert value == total, lines
        total = WORKED[line.sign](total, value) if line.sign in WORKED else value


@pytest.mark.parametrize("slug", ["weir-pool", "runner"])
def test_sums_give_what_is_published(slug: str) -> None:
    found = sized(slug)
    for fact in found.facts:
        kind = next((kind for kind in KINDS if re.fullmatch(kind, fact.key)), None)
        lines = fact_trace(found, fact.key)
        assert bool(lines) or kind is None, fact.key
        added_up(lines)
        if lines and ", join " not in fact.key:
            assert lines[-1].amount == fact.published, fact.key


def test_every_kind_is_met() -> None:
    keys = [fact.key for slug in ("weir-pool", "runner") for fact in sized(slug).facts]
    assert [kind for kind in KINDS if not any(re.fullmatch(kind, key) for key in keys)] == []


def traced(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["--patterns", str(PATTERNS), "trace", *words]) == 0
    return capsys.readouterr().out


def test_why_half_a_yard(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: three strips of 4 7/8, 1 to square and 2 for room are 17 5/8 of the 18 in 1/2 yd."""
    said = traced(capsys, "weir-pool", "background, usable width 42, yards = 1/2")
    assert [" ".join(line.split()) for line in said.splitlines() if line] == [
        "background, usable width 42, yards, Pram: 1/2 yard",
        "14 5/8 strips in all",
        "+ 1 to square the end of the cloth",
        "+ 2 room for one cut that went wrong",
        "= 17 5/8",
        "= 1/2 yards: 36 in to the yard, sold in steps of 1/8, rounded up",
    ]


def test_why_this_wide(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: three blocks of 8 and borders of 1 and 3 on both sides are 32."""
    said = traced(capsys, "weir-pool", "finished size, width")
    assert "quilt centre: 3 x 8\n" in said
    assert "  = 32\n" in said
    assert re.search(r"^  patterns/weir-pool/pattern.yaml:\d+: ", said, re.MULTILINE)


def test_a_wrong_key_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--patterns", str(PATTERNS), "trace", "weir-pool", "finished size, widht"]) == 2
    assert "did you mean `finished size, width`?" in capsys.readouterr().err
