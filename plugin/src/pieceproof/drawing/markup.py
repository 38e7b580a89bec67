"""Text of SVG: tags, escaped words, numbers and path data.

Goes in: names, words and places on the screen. Comes out: text that every XML parser takes.
It decides nothing about how a drawing looks.
"""

import re
from collections.abc import Iterable, Mapping, Sequence

from .scene import Place

PER_UNIT = 100
"""Places are rounded to hundredths of a screen unit."""

# XML 1.0 (fifth edition), section 2.2, production 2: everything else is not a character.
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
# Those XML 1.0 section 2.2 asks authors to avoid.
_DISCOURAGED = re.compile("[\x7f-\x84\x86-\x9f]")


def tag(name: str, attributes: Mapping[str, str | float], body: str = "") -> str:
    """Return an element; attributes keep their order, empty ones are left out."""
    written = "".join(
        f' {key}="{escaped(value if isinstance(value, str) else number(value))}"'
        for key, value in attributes.items()
        if value != ""
    )
    return f"<{name}{written}>{body}</{name}>" if body else f"<{name}{written}/>"


def escaped(words: str) -> str:
    """Return words for XML text or an attribute, on one line.

    Control characters and everything that is no XML character become U+FFFD.
    """
    line = " ".join(_DISCOURAGED.sub("\ufffd", _NOT_XML.sub("\ufffd", words)).split())
    for mark, entity in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        line = line.replace(mark, entity)
    return line


def number(value: float) -> str:
    """Return a number with at most two decimals, never with an exponent or as minus nothing.

    Raises:
        ValueError, OverflowError: not a finite number.

    >>> number(3.10), number(-0.001), number(1e-5), number(-0.25)
    ('3.1', '0', '0', '-0.25')
    """
    return _hundredths(_steps(value))


def path_data(runs: Iterable[Sequence[Place]], end: str = "") -> str:
    """Return path data of several runs of places; `end` "Z" closes each of them.

    Moves are relative to the last rounded place, so that rounding never adds up.

    >>> path_data([[(1, 1), (3, 1), (3, 2.5)]], "Z")
    'M1 1h2v1.5Z'
    """
    return "".join(_run(run) + end for run in runs)


def _run(run: Sequence[Place]) -> str:
    (x, y), *others = ((_steps(px), _steps(py)) for px, py in run)
    written = [f"M{_hundredths(x)} {_hundredths(y)}"]
    for next_x, next_y in others:
        written.append(_move(next_x - x, next_y - y))
        x, y = next_x, next_y
    return "".join(written)


def _move(dx: int, dy: int) -> str:
    if dy == 0:
        return f"h{_hundredths(dx)}" if dx else ""
    return f"v{_hundredths(dy)}" if dx == 0 else f"l{_hundredths(dx)} {_hundredths(dy)}"


def _steps(value: float) -> int:
    return round(value * PER_UNIT)


def _hundredths(steps: int) -> str:
    whole, part = divmod(abs(steps), PER_UNIT)
    sign = "-" if steps < 0 else ""
    return f"{sign}{whole}" + (f".{part:02d}".rstrip("0") if part else "")
