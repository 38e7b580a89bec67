"""Pressing that fits no seam: a bad file beside the exact message."""

from pathlib import Path

import pytest

from pieceproof.compile import compile_pattern
from pieceproof.problems import show_problem

HERE = Path(__file__).parent
CASES = sorted(path.stem for path in HERE.glob("*.yaml"))


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    pattern = compile_pattern("towpath", {"pattern.yaml": (HERE / f"{case}.yaml").read_bytes()})
    (lines,) = pattern.lines.values()
    shown = [show_problem(p, lines[p.place.line - 1]) for p in pattern.problems]
    assert "\n\n".join(shown) + "\n" == (HERE / f"{case}.txt").read_text(encoding="utf-8")
