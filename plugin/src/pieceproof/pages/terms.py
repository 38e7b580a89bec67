"""Words of the trade and abbreviations that the page explains in place.

In: text that is already safe HTML. Out: the same with buttons that open an explanation; the
browser shows and closes it without a script.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from markupsafe import Markup

TERMS = {
    "right sides together": "The printed sides face each other; the seam ends up on the back.",
    "wrong sides together": "The backs of the cloth face each other.",
    "wrong side": "The back of the cloth, the side that does not show.",
    "right side up": "With the printed side toward you.",
    "unfinished": "With the seam allowances still on the outside: the size to measure as you sew.",
    "seam allowance": "The cloth between the raw edge and the stitching.",
    "selvage": "The firm woven edge of the cloth. Cut it off; do not sew it in.",
    "foundation": "Paper or light cloth with the seam lines printed on it, to sew through.",
    "dog ears": "The little points that stick out beyond a seam; trim them off.",
    "nest": "Seam allowances that lie opposite ways lock into each other, so that the seams meet.",
    "on the bias": "At a slant to the threads of the cloth, where it stretches. Do not pull.",
    "RST": "Right sides together: the printed sides face each other.",
    "WST": "Wrong sides together: the backs of the cloth face each other.",
    "WOF": "Width of fabric, from selvage to selvage.",
    "LOF": "Length of fabric, along the selvage.",
    "HST": "Half-square triangle: a square unit of two triangles.",
    "QST": "Quarter-square triangle: a square unit of four triangles.",
    "HRT": "Half-rectangle triangle: a rectangle of two triangles.",
    "FPP": "Foundation paper piecing: sewing through paper with the lines printed on it.",
    "EPP": "English paper piecing: folding cloth round paper shapes and sewing these by hand.",
    "FQ": "Fat quarter: 18 by 22 inches, or 50 by 55 centimetres.",
    "yd": "Yard, 36 inches: the length of cloth to ask for.",
}

_TERM = re.compile(
    r"(?P<skip><(?P<tag>a|h[1-6]|button)\b.*?</(?P=tag)>)|"
    rf"(?<![\w-])(?P<term>{'|'.join(map(re.escape, TERMS))})s?(?![\w-])(?=[^<>]*(?:<|$))",
    re.DOTALL,
)

_BUTTON = '<button type="button" class="term" popovertarget="{}">{}</button>'


def explained(texts: Iterable[Markup]) -> list[Markup]:
    """Texts with the first place of each term in all of them made a button."""
    seen: set[str] = set()

    def button(found: re.Match[str]) -> str:
        term = found["term"]
        if found["skip"] or term in seen:
            return found[0]
        seen.add(term)
        return _BUTTON.format(term_id(term), found[0])

    return [Markup(_TERM.sub(button, str(text))) for text in texts]


def term_id(term: str) -> str:
    """The id of a term's explanation.

    >>> term_id("wrong side")
    'term-wrong-side'
    """
    return f"term-{term.replace(' ', '-').lower()}"
