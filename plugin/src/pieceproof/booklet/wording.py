"""Words for paper: measurements that no line breaks, fractions drawn as such, letters as badges.

In: texts of instructions, HTML of the writer's prose and of pages. Out: HTML. A measurement stays
plain text, held together by no-break spaces, its fraction by the fraction slash (U+2044, which
fonts draw as a fraction): next to inline boxes WeasyPrint sometimes breaks a line too early.
"""

from __future__ import annotations

import re

from markupsafe import Markup, escape

_LETTER = Markup('<b class="letter">{}</b>')
_FRACTION = re.compile(r"(?<![\d/])(\d+)/(\d+)(?![\d/])")
_NUMBER = r"(?<![\d/.])(?:(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)"
_UNIT = r'(?:"|&#34;|&quot;| cm\b| yd\b| m\b)'
_WHOLE = re.compile(rf"(?:{_NUMBER}{_UNIT}? x )?{_NUMBER}{_UNIT}|{_FRACTION.pattern}")
_TAG = re.compile(r"(<[^>]*>)")
_MARKED = re.compile(r'<span class="fraction">(\d+)/(\d+)</span>')
_LENGTH = re.compile(r'<span class="length">([^<]*)</span>')


def sentence_html(text: str) -> Markup:
    """A step's sentence; piece letters stand in double asterisks.

    >>> print(sentence_html("Sew **A** (2 cm)").replace("\\xa0", "_"))
    Sew <b class="letter">A</b> (2_cm)
    """
    parts = text.split("**")
    marked = (_LETTER.format(p) if at % 2 else _wholes(escape(p)) for at, p in enumerate(parts))
    return Markup("").join(marked)


def prose_html(html: str) -> Markup:
    """HTML with the measurements in its texts held together.

    >>> print(prose_html('<i title="2 cm">2 x 3 cm</i>').replace("\\xa0", "_"))
    <i title="2 cm">2_x_3_cm</i>
    """
    parts = _TAG.split(html)
    return Markup("").join(Markup(p) if at % 2 else _wholes(p) for at, p in enumerate(parts))


def page_html(html: str) -> str:
    """HTML of a page's templates with its marked lengths and fractions as plain text.

    >>> page_html('<span class="length">3 <span class="fraction">1/2</span> m</span>')
    '3\\xa01\\u20442\\xa0m'
    """
    return _LENGTH.sub(lambda found: _held(found[1]), _MARKED.sub("\\1\u2044\\2", html))


def _wholes(text: str) -> Markup:
    """Escaped text with its measurements held together."""
    return Markup(_WHOLE.sub(lambda found: _held(found[0]), text))


def _held(measurement: str) -> str:
    return _FRACTION.sub("\\1\u2044\\2", measurement).replace(" ", "\u00a0")
