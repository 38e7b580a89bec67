"""Bytes to nodes: places, line ends, and what is refused."""

import pytest

from pieceproof.problems import Place
from pieceproof.source import ListNode, MapNode, Node, TextNode, read_source

FILE = "patterns/low-water/pattern.yaml"


def read(data: bytes) -> tuple[MapNode | None, list[tuple[str, int, int]]]:
    tree, problems, _ = read_source(FILE, data)
    return tree, [(p.code, p.place.line, p.place.column) for p in problems]


def value(tree: MapNode | None, key: str) -> Node:
    assert tree is not None
    entry = tree.get(key)
    assert entry is not None
    return entry.value


def test_keys_values_and_items_know_their_places() -> None:
    tree, problems = read(b"name: Low Water\nrows:\n  - [mat, rug]\n")
    assert problems == []
    assert value(tree, "name") == TextNode("Low Water", Place(FILE, 1, 7))
    rows = value(tree, "rows")
    assert isinstance(rows, ListNode)
    assert rows.place == Place(FILE, 3, 3)
    assert isinstance(rows.items[0], ListNode)
    assert rows.items[0].items[1] == TextNode("rug", Place(FILE, 3, 11))


@pytest.mark.parametrize(
    "text", ["yes", "null", "~", "1_000", "12:30", "2024-01-01", "0x1F", "1e3"]
)
def test_every_value_stays_text(text: str) -> None:
    tree, problems = read(f"a: {text}\n".encode())
    assert problems == []
    assert value(tree, "a") == TextNode(text, Place(FILE, 1, 4))


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
def test_line_ends_of_all_systems(end: bytes) -> None:
    tree, problems = read(end.join([b"a: b", b"", b"c: d", b""]))
    assert problems == []
    assert value(tree, "c").place == Place(FILE, 3, 4)


def test_a_byte_order_mark_at_the_start_is_no_problem() -> None:
    tree, problems = read(b"\xef\xbb\xbfa: b\n")
    assert problems == []
    assert value(tree, "a").place == Place(FILE, 1, 4)


def test_columns_count_characters_not_bytes() -> None:
    _, problems = read("café: x\nnaïve: 'né' \x07\n".encode())
    assert problems == [("control-character", 2, 13)]


def test_wrong_bytes_are_placed_by_line_and_character() -> None:
    _, problems = read(b"\xef\xbb\xbfa: b\r\nc: \xc3\xa9\xe9\r\n")
    assert problems == [("not-utf-8", 2, 5)]


def test_several_kinds_of_problem_are_found_together() -> None:
    data = b"a: b\na: c\nd:\te\nf: \x00g\nh: &x i\nj: *x\nk: !!int 3\n? [l]\n: m\n---\nn: o\n"
    _, problems = read(data)
    assert [code for code, _, _ in problems] == [
        "control-character",
        "tab",
        "several-documents",
        "duplicate-key",
        "anchor",
        "anchor",
        "tag",
        "bad-key",
    ]


def test_a_chain_of_copies_is_not_followed() -> None:
    rows = b"\n".join(b"k%d: &k%d [*k%d, *k%d]" % (i + 1, i + 1, i, i) for i in range(40))
    _, problems = read(b"k0: &k0 x\n" + rows)
    assert {code for code, _, _ in problems} == {"anchor"}


def test_lines_for_display_hold_no_control_characters() -> None:
    _, _, lines = read_source(FILE, b"a: \x1b[31mred\tb\n")
    assert lines[0] == "a: \ufffd[31mred b"
