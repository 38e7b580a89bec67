"""Tips nearer to a seam line than the writer demands: a bad file beside the exact message."""

from pathlib import Path

import pytest

from pieceproof.compile import compile_pattern
from pieceproof.problems import show_problem

HERE = Path(__file__).parent
CASES = sorted(path.stem for path in HERE.glob("*.yaml"))


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    pattern = compile_pattern("low-water", {"pattern.yaml": (HERE / f"{case}.yaml").read_bytes()})
    (lines,) = pattern.lines.values()
    shown = [show_problem(p, lines[p.place.line - 1]) for p in pattern.problems]
    assert "\n\n".join(shown) + "\n" == (HERE / f"{case}.txt").read_text(encoding="utf-8")


def test_the_remedy_mends_it() -> None:
    for case, found, remedy in (
        ("tip-too-near", "leg: 2 3/8", "leg: 2 1/2"),
        ("tip-too-near.cut", "leg: 2 1/8", "leg: 2 1/2"),
        ("tip-too-near.size", "leg: 2 1/4", "leg: 2 1/2"),
    ):
        text = (HERE / f"{case}.yaml").read_text(encoding="utf-8")
        mended = text.replace(found, remedy).replace("4 1/2 x 2 1/2", "4 1/2 x 2 3/4")
        pattern = compile_pattern("low-water", {"pattern.yaml": mended.encode()})
        assert not pattern.problems
