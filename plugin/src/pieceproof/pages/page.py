"""A page for MkDocs: Markdown with the headings and the writer's prose, and ready-made HTML.

The HTML takes its place after Markdown has been read, so nothing in it is read as Markdown, and
headings still reach the table of contents. Every text from outside is escaped by the templates.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup, escape

from pieceproof.pages.choices import Variant, attributes
from pieceproof.pages.terms import explained, term_id

_PLACE = '<div data-pieceproof="{}"></div>'
_LETTER = Markup('<b class="letter">{}</b>')
_FRACTION = re.compile(r"(?<![\d/])\d+/\d+(?![\d/])")
_MIXED = re.compile(r'\d+ <span class="fraction">[^<]*</span>')
_PLACES = re.compile(r'<div data-pieceproof="(\d+)"></div>')


@dataclass(frozen=True)
class Page:
    """A page's Markdown, and the HTML that takes the places marked in it."""

    markdown: str
    fragments: tuple[str, ...]


def render_page(template: str, words: Mapping[str, object]) -> Page:
    """Render a page's template; in it, ``put(template, ...)`` places a fragment."""
    fragments: list[str] = []

    def put(fragment: str, **more: object) -> Markup:
        fragments.append(_ENVIRONMENT.get_template(f"pages/{fragment}").render(dict(words, **more)))
        return Markup(_PLACE.format(len(fragments) - 1))

    markdown = _ENVIRONMENT.get_template(f"pages/{template}").render(words, put=put)
    return Page(markdown, tuple(fragments))


def render_html(template: str, words: Mapping[str, object]) -> str:
    """Render one template by its path below ``templates``, all that it prints escaped."""
    return _ENVIRONMENT.get_template(template).render(words)


def with_fragments(html: str, fragments: tuple[str, ...]) -> str:
    """The page's HTML with every fragment in its place, its terms explained where it tells them."""
    tells = any('class="terms"' in fragment for fragment in fragments)
    (own,) = explained([Markup(html)]) if tells else (html,)
    return _PLACES.sub(lambda place: fragments[int(place[1])], own)


def _holds(variant: Variant[object]) -> Markup:
    """The attributes of an element that shows a variant."""
    pairs = attributes(variant).items()
    return Markup("").join(Markup(' {}="{}"').format(key, value) for key, value in pairs)


def _front_matter(text: str) -> Markup:
    """A text as a value of the page's front matter, which the theme puts into HTML as it is."""
    return Markup(json.dumps(escape(" ".join(text.split()))))


def _sentence(text: str) -> Markup:
    """A step's sentence: escaped, with piece letters (in double asterisks) as badges."""
    parts = text.split("**")
    marked = (_LETTER.format(p) if at % 2 else _running(p) for at, p in enumerate(parts))
    return Markup("").join(marked)


def _sentences(texts: Iterable[str]) -> list[Markup]:
    """The sentences of a make, terms of the trade explained where they first stand."""
    return explained(map(_sentence, texts))


def _measure(text: object) -> Markup:
    """Words with their fractions marked, so that they can be drawn as such."""
    return Markup(_FRACTION.sub(r'<span class="fraction">\g<0></span>', str(escape(text))))


def _running(text: str) -> Markup:
    """Words of a sentence: no line ends within 1 3/4."""
    return Markup(_MIXED.sub(r'<span class="mixed">\g<0></span>', str(_measure(text))))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


_ENVIRONMENT = Environment(
    loader=PackageLoader("pieceproof"),
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
    keep_trailing_newline=True,
    autoescape=True,
)
_ENVIRONMENT.filters |= {
    "holds": _holds,
    "front_matter": _front_matter,
    "sentence": _sentence,
    "sentences": _sentences,
    "term_id": term_id,
    "measure": _measure,
    "capital": _capital,
}
