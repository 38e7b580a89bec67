"""Any bytes as a shop's file, and its own file changed: problems, never an exception, in time."""

import time
from pathlib import Path

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from pieceproof.kits.stock import read_book
from pieceproof.problems import Problem, show_problem
from pieceproof.schema import shop_schema

FILE = "patterns/kits.yaml"
SHOP = (Path(__file__).parents[2] / FILE).read_bytes()
SCHEMA = Draft202012Validator(shop_schema())
SCRAPS = st.sampled_from(
    [
        *(b"\t", b"\x00", b"\xff", b"\n---\n", b"[", b"]", b"{", b"}", b": ", b"- ", b"#", b"'"),
        *(b"&a ", b"*a", b"!!int ", b"-1", b"1/0", b"9" * 5000, b"1e9", b"none", b"wage: 1\n"),
        *(b"yard", b"kits: 2", b"0", "½".encode(), b"instead: []", b"layers: 3\n"),
    ]
)


def all_problems(data: bytes) -> tuple[Problem, ...]:
    start = time.process_time()
    _, problems, lines = read_book(FILE, data)
    assert time.process_time() - start < 1
    for problem in problems:
        assert problem.place.file == FILE
        line = problem.place.line
        show_problem(problem, lines[line - 1] if line <= len(lines) else "").encode("utf-8")
    return problems


@given(st.binary(max_size=300))
@settings(max_examples=80, deadline=None)
def test_any_bytes(data: bytes) -> None:
    all_problems(data)


CHANGE = st.tuples(st.floats(0, 1), st.integers(0, 10), SCRAPS)


@given(st.lists(CHANGE, max_size=4))
@settings(max_examples=200, deadline=None)
def test_the_shop_s_file_changed(changes: list[tuple[float, int, bytes]]) -> None:
    """Nothing raises, and what reading accepts the schema accepts too."""
    data = SHOP
    for where, length, scrap in changes:
        start = int(where * len(data))
        data = data[:start] + scrap + data[start + length :]
    if not all_problems(data):
        tree = yaml.load(data, Loader=yaml.BaseLoader)
        assert [error.message for error in SCHEMA.iter_errors(tree)] == []


def test_the_schema_takes_the_shop_s_file() -> None:
    for loader in (yaml.SafeLoader, yaml.BaseLoader):
        assert list(SCHEMA.iter_errors(yaml.load(SHOP, Loader=loader))) == []
