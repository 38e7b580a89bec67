"""YAML's own complaints in words for people who write patterns.

In: an error of the YAML parser. Out: one problem. The parser's sentences are matched by their
stable parts (PyYAML 6, scanner.py and parser.py); anything new falls through to a general answer.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import yaml

from pieceproof.problems import Place, Problem

_QUOTES = 'put quotes around the whole value: `called: "star: points"`'


@dataclass(frozen=True)
class _Saying:
    """Parts of the parser's context and problem, and what to say instead.

    ``from_start`` points at where the unfinished thing began instead of where it failed.
    """

    context: str
    problem: str
    found: str
    expected: str
    remedy: str
    from_start: bool = False


_SAYINGS = (
    _Saying(
        "",
        "mapping values are not allowed here",
        "a colon that does not fit here",
        "one key and its value on a line, indented like the keys beside it",
        f"check this line's indentation and the line above; if the colon is text, {_QUOTES}",
    ),
    _Saying(
        "simple key",
        "could not find expected ':'",
        "a line without a colon among lines of keys and values",
        "a key, a colon, a space and a value",
        "add the colon and a space after the key; indent the line if it continues the one above",
        from_start=True,
    ),
    _Saying(
        "quoted scalar",
        "unexpected end of stream",
        "an opening quote without a closing one",
        "the same quote at the end of the value",
        "add the closing quote; for an inch mark or an apostrophe leave the quotes out",
        from_start=True,
    ),
    _Saying(
        "quoted scalar",
        "document separator",
        "an opening quote without a closing one",
        "the same quote at the end of the value",
        "add the closing quote; for an inch mark or an apostrophe leave the quotes out",
        from_start=True,
    ),
    _Saying(
        "double-quoted",
        "",
        "a backslash inside double quotes",
        "plain text",
        "delete the backslash, or use single quotes around the text",
    ),
    _Saying(
        "flow sequence",
        "expected ',' or ']'",
        "an opening `[` that is not closed as it should be",
        "items with commas between them and a closing `]`",
        "add the missing comma or `]`, and check the brackets inside",
        from_start=True,
    ),
    _Saying(
        "flow mapping",
        "expected ',' or '}'",
        "an opening `{` that is not closed as it should be",
        "keys with values, commas between them and a closing `}`",
        "add the missing comma or `}`, and check the brackets inside",
        from_start=True,
    ),
    _Saying(
        "",
        "sequence entries are not allowed here",
        "a dash behind a key on the same line",
        "list items on lines of their own, below the key",
        "start a new line before the dash and indent it, or write the list as `[a, b]`",
    ),
    _Saying(
        "block mapping",
        "'<scalar>'",
        "text after the end of a value",
        "nothing behind a closing quote or bracket",
        "take the quotes off, or put them around the whole value",
    ),
    _Saying(
        "block mapping",
        "expected <block end>",
        "a line that is not indented like the lines it belongs to",
        "keys of one group one below the other, in the same column",
        "move the line left or right until its key stands below the keys of its group",
    ),
    _Saying(
        "block collection",
        "expected <block end>",
        "a line among list items that does not start with a dash",
        "a dash in the same column for every item of the list",
        "start the line with `- `, or move it left so that the list ends",
    ),
    _Saying(
        "next token",
        "cannot start any token",
        "a value that starts with a character YAML keeps for itself",
        "a value that starts with a letter, a digit or a quote",
        "put quotes around the value",
    ),
    _Saying(
        "scanning an a",
        "expected alphabetic or numeric",
        "a value that starts with `*` or `&`",
        "a value that starts with a letter, a digit or a quote",
        "put quotes around the value",
    ),
    _Saying(
        "block scalar",
        "",
        "text right behind `>` or `|`",
        "the text on the next line, indented",
        "start a new line behind the sign, or put quotes around the value",
    ),
    _Saying(
        "",
        "undefined tag handle",
        "a value that starts with `!`",
        "a value that starts with a letter, a digit or a quote",
        "put quotes around the value",
    ),
    _Saying(
        "",
        "expected the node content",
        "a bracket, comma or dash where a value should stand",
        "a value, or a closing bracket for every opening one",
        "check the brackets and commas of this line and of the line above",
    ),
)


def syntax_problem(file: str, text: str, error: yaml.MarkedYAMLError) -> Problem:
    """The parser's error in a text as a problem with a remedy."""
    remark = _remark_in_brackets(file, text, error)
    if remark is not None:
        return remark
    context, problem = error.context or "", error.problem or ""
    for saying in _SAYINGS:
        if saying.context in context and saying.problem in problem:
            mark = error.context_mark if saying.from_start else error.problem_mark
            place = place_of(file, mark or error.problem_mark)
            return Problem(place, "syntax", saying.found, saying.expected, saying.remedy)
    return Problem(
        place_of(file, error.problem_mark or error.context_mark),
        "syntax",
        "something that YAML cannot read",
        "keys with values, such as `name: Low Water`",
        "check quotes, brackets, colons and indentation here; if a sign is text, put the value "
        "in quotes",
    )


def _remark_in_brackets(file: str, text: str, error: yaml.MarkedYAMLError) -> Problem | None:
    """An unfinished bracket in a line with a bare ``#``: the rest of the line went unread."""
    mark = error.context_mark
    if mark is None or "parsing a flow" not in (error.context or ""):
        return None
    column = text.split("\n")[mark.line].find(" #", mark.column) + 2
    if column < 2:
        return None
    return Problem(
        Place(file, mark.line + 1, column),
        "syntax",
        "a `#`, which starts a remark, inside brackets that are still open",
        'a colour in quotes, such as `"#b5532f"`',
        "put quotes around the colour; if this is a remark, move it behind the closing bracket",
    )


def place_of(file: str, mark: Any) -> Place:
    """The place of a parser's mark, which counts from 0."""
    return Place(file, mark.line + 1, mark.column + 1) if mark else Place(file, 1, 1)
