"""Every problem that a pattern's text can have: a bad file beside the exact message.

Cases are pairs of files, ``<code>.yaml`` and ``<code>.txt``; a second case of a code has a word
after a dot. Three kinds of bad file cannot be stored as a short text and are built here.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import pieceproof
from pieceproof.checks import check_designs
from pieceproof.construct import construct
from pieceproof.finishing import finishing_problems
from pieceproof.geometry import draw
from pieceproof.layout import lay_out
from pieceproof.lettering import publish
from pieceproof.methods import METHODS
from pieceproof.model import Design
from pieceproof.problems import Problem, show_problem
from pieceproof.reading import read_pattern

NAMED = ("plain patch", "half-square triangles", "flying geese", "stitched corners")
KNOWN = tuple(method for method in METHODS if method.name in NAMED)
"""The methods whose names the stored messages list: a new method changes no message here."""

OF_THE_SHOP = {"bad-amount"}
"""Codes that only the shop's own file can have; see the folder ``kits``."""

OF_ALL = ("bad-place",)
"""Codes of which only other methods have a key."""

HERE = Path(__file__).parent
FILE = "patterns/low-water/pattern.yaml"
STAGES = (
    *("source", "syntax", "scalars", "records", "reading", "checks"),
    *("borders", "sewing_borders", "finishing"),
)

GOOD = b"""\
name: Low Water
kind: place mat
summary: One patch.
measure: inch
seam: 1/4
fabrics: {ground: {called: background}}
units: {mat: {method: plain patch, size: 12 x 18, fabric: ground}}
setting: {layout: straight, rows: [[mat]]}
cloths: {mist: {name: Morning Mist, colour: "#e9ece6"}}
colourways: {fog: {name: Fog, parts: {ground: mist}}}
"""

BUILT = {
    "file-too-large": (FILE, GOOD + b"#" * 70_000),
    "folder-name": ("patterns/Low Water/pattern.yaml", GOOD),
    "too-long": (FILE, GOOD + b"borders:\n" + b"- []\n" * 10_000),
}

STORED = sorted(path.stem for path in HERE.glob("*.yaml"))
CASES = sorted([*STORED, *BUILT])


def problems_of(case: str) -> tuple[tuple[Problem, ...], tuple[str, ...]]:
    file, data = BUILT.get(case) or (FILE, (HERE / f"{case}.yaml").read_bytes())
    methods = METHODS if case in OF_ALL else KNOWN
    designs, problems, lines = read_pattern(file, data, methods)
    problems = (*problems, *check_designs(designs, problems))
    later = problems or [p for design in designs for p in sewing_problems(design)]
    return tuple(sorted({*problems, *later})), lines


def sewing_problems(design: Design) -> tuple[Problem, ...]:
    layouts, problems = lay_out(design)
    if problems:
        return problems
    draft, problems = construct(design, layouts, draw(design, layouts))
    return problems or finishing_problems(design, *publish([draft]))


def messages(case: str) -> str:
    problems, lines = problems_of(case)
    shown = [
        show_problem(p, lines[p.place.line - 1] if p.place.line <= len(lines) else "")
        for p in problems
    ]
    return "\n\n".join(shown) + "\n"


def emitted_codes() -> Iterator[str]:
    """The codes in the source of the stages; each must be written out as a constant."""
    for stage in STAGES:
        path = Path(pieceproof.__file__).with_name(f"{stage}.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                position = {"Problem": 1, "Complaint": 0}.get(node.func.id)
                if position is not None and len(node.args) > position + 1:
                    code = node.args[position]
                    assert isinstance(code, ast.Constant), f"{path.name}:{node.lineno}"
                    yield code.value


def test_the_good_file_has_no_problem() -> None:
    designs, problems, _ = read_pattern(FILE, GOOD, KNOWN)
    assert problems + check_designs(designs, problems) == ()


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    assert messages(case) == (HERE / f"{case}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", [case for case in CASES if case != "several-at-once"])
def test_a_case_shows_its_code_only(case: str) -> None:
    assert {p.code for p in problems_of(case)[0]} == {case.split(".", maxsplit=1)[0]}


def test_every_code_has_a_case() -> None:
    assert set(emitted_codes()) - OF_THE_SHOP == {case.split(".")[0] for case in CASES} - {
        "several-at-once"
    }


def test_every_expected_message_has_its_file() -> None:
    assert sorted(path.stem for path in HERE.glob("*.txt")) == CASES
