"""Markdown that a pattern's prose may not hold, because a page would not be safe or its own.

In: text and its file's name. Out: problems. Raw HTML and files from elsewhere are refused; links
may lead to a place on the page, a file of the pattern, or an address that begins with https.
What is refused here is also made harmless where prose is filled in.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from pieceproof.problems import Place, Problem, nearest
from pieceproof.wording import quoted

_HTML = re.compile(r"<[A-Za-z/!?][^>\n]{0,60}>?|/{3,}[^\n]*")
_LINK = re.compile(r'(!?)\[([^\[\]]*)\]\(([^()\s{}]*)(?: +"[^"{}]*")?\)')
_TARGET = re.compile(r"\]\([^)\n]{0,60}\)?|\[[^\]\n]*\]:[^\n]*")
_UNDERLINE = re.compile(r"\S[ \t]*\n[ ]{0,3}(=+|-+)[ \t]*$", re.MULTILINE)
_INNER_HEADING = re.compile(r"^[ \t]*(?:(?:[>*+-]|\d+\.)[ \t]*)+(#+)", re.MULTILINE)

_LOCAL = re.compile(r"(?!.*(?:\.\.|//))(?:[A-Za-z0-9_][A-Za-z0-9_./-]*)?(?:#[A-Za-z0-9_-]+)?")
_HTTPS = re.compile(
    r"https://[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+(?::[0-9]{1,5})?(?:/[A-Za-z0-9._~%/?#&=+@,;-]*)?"
)
_PLACES = "link to a heading of the page, such as `#cutting`, or leave the link out"
_PICTURE = re.compile(r"(?!.*(?:\.\.|//))[A-Za-z0-9_][A-Za-z0-9_./-]*\.(?:png|jpe?g|webp)")


def place_at(file: str, text: str, offset: int) -> Place:
    """The place of a character."""
    line_start = text.rfind("\n", 0, offset) + 1
    return Place(file, text.count("\n", 0, offset) + 1, offset - line_start + 1)


def pictures_in(text: str) -> tuple[str, ...]:
    """The picture files that the text shows or leads to, each once, in order."""
    targets = (match[3].partition("#")[0] for match in _LINK.finditer(text))
    return tuple(dict.fromkeys(target for target in targets if _PICTURE.fullmatch(target)))


def markup_problems(
    file: str, text: str, files: Collection[str], anchors: Collection[str]
) -> Iterator[Problem]:
    """Everything that is refused. ``files`` are the names in the pattern's folder, ``anchors`` the
    places of its page.
    """
    tags = {place_at(file, text, match.start()): match[0] for match in _HTML.finditer(text)}
    for place in {place.line: place for place in reversed(tags)}.values():  # the first of a line
        yield _html(place, tags[place])
    for match in _UNDERLINE.finditer(text):
        yield _underline(place_at(file, text, match.start(1)), match[1])
    for match in _INNER_HEADING.finditer(text):
        yield _inner_heading(place_at(file, text, match.start(1)), match[0])
    links = [*_LINK.finditer(text)]
    for match in links:
        yield from _link_problems(place_at(file, text, match.start()), match, files, anchors)
    covered = [match.span() for match in links]
    for match in _TARGET.finditer(text):
        if not any(start <= match.start() < end for start, end in covered):
            yield _odd_link(place_at(file, text, match.start()), match[0])


def _link_problems(
    place: Place, match: re.Match[str], files: Collection[str], anchors: Collection[str]
) -> Iterator[Problem]:
    bang, words, target = match.groups()
    if bang and not words.strip():
        yield _unnamed_picture(place, target)
    if bang and not _PICTURE.fullmatch(target):
        yield _foreign_picture(place, target)
    elif bang and target not in files:
        yield _no_picture(place, target, files)
    elif not bang and not (target and _LOCAL.fullmatch(target)) and not _HTTPS.fullmatch(target):
        yield _bad_link(place, target)
    elif not bang and not _HTTPS.fullmatch(target):
        yield from _lost(place, target, files, anchors)


def _lost(
    place: Place, target: str, files: Collection[str], anchors: Collection[str]
) -> Iterator[Problem]:
    """A link to a place or a file that does not exist."""
    path, _, anchor = target.partition("#")
    known = [name for name in files if _PICTURE.fullmatch(name)] if path else anchors
    if (path or anchor) not in known:
        near = nearest(path or anchor, known)
        yield Problem(
            place,
            "prose-link",
            f"a link to {quoted(target)}, which is not there",
            "a picture in the pattern's own folder" if path else "a place on the pattern's page",
            f"write {quoted(near if path else f'#{near}')}" if near else _PLACES,
        )


def _html(place: Place, found: str) -> Problem:
    return Problem(
        place,
        "prose-html",
        f"{quoted(found)}, which looks like HTML",
        "Markdown: `*emphasis*`, lists, `[words](https://...)`",
        "write it in Markdown; a plain less-than sign needs a space after it",
    )


def _underline(place: Place, found: str) -> Problem:
    return Problem(
        place,
        "prose-heading",
        f"a heading by a line of {quoted(found[:3])} below it",
        "headings that begin with `##`",
        "write `## ` before the heading and delete this line, or put an empty line above it",
    )


def _inner_heading(place: Place, found: str) -> Problem:
    return Problem(
        place,
        "prose-heading",
        f"{quoted(found)}, a heading in a list or a quotation",
        "headings at the left margin",
        "write `**words**` for emphasis, or move the heading out",
    )


def _odd_link(place: Place, found: str) -> Problem:
    return Problem(
        place,
        "prose-link",
        f"{quoted(found)}, a link that is not written in one place",
        "`[words](target)`, without brackets in the words or spaces in the target",
        "write the whole link where it is used",
    )


def _bad_link(place: Place, target: str) -> Problem:
    return Problem(
        place,
        "prose-link",
        f"a link to {quoted(target)}",
        "a place on the page, such as `#cutting`, a file of this pattern, or an address that "
        "begins with `https://`",
        "change the target, or leave the link out",
    )


def _foreign_picture(place: Place, target: str) -> Problem:
    return Problem(
        place,
        "prose-image",
        f"a picture at {quoted(target)}",
        "a picture in the pattern's own folder, ending in .png, .jpg, .jpeg or .webp",
        "put the file beside `prose.md` and write its name only",
    )


def _no_picture(place: Place, target: str, files: Collection[str]) -> Problem:
    near = nearest(target, files)
    return Problem(
        place,
        "prose-image",
        f"the picture {quoted(target)}, which is not there",
        "a picture in the pattern's own folder",
        f"write {quoted(near)}" if near else "put the file beside `prose.md`",
    )


def _unnamed_picture(place: Place, target: str) -> Problem:
    return Problem(
        place,
        "prose-image",
        f"the picture {quoted(target)} without words",
        "words that tell what the picture shows, for readers who cannot see it",
        f"write `![A star laid out beside the machine]({target})`, with your own words",
    )
