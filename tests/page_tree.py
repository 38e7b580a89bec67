"""A page as a tree, read by the standard library's parser; what a reader's choice leaves of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

# HTML Living Standard, section 13.1.2, "void elements".
VOID = {
    *("area", "base", "br", "col", "embed", "hr", "img"),
    *("input", "link", "meta", "source", "track", "wbr"),
}


@dataclass
class Element:
    """A tag with its attributes, and texts and elements inside it."""

    tag: str
    attributes: dict[str, str]
    inside: list[Element | str] = field(default_factory=list)

    def all(self, tag: str = "", css_class: str = "") -> Iterator[Element]:
        """This and all elements inside, in order, that have the tag and class."""
        classes = self.attributes.get("class", "").split()
        if (not tag or self.tag == tag) and (not css_class or css_class in classes):
            yield self
        for item in self.inside:
            if isinstance(item, Element):
                yield from item.all(tag, css_class)

    def one(self, tag: str = "", css_class: str = "") -> Element:
        """The first of them."""
        return next(self.all(tag, css_class))

    @property
    def text(self) -> str:
        """All text, blanks made single."""
        return " ".join("".join(self._texts()).split())

    def _texts(self) -> Iterator[str]:
        for item in self.inside:
            if isinstance(item, str):
                yield item
            else:
                yield from item._texts()

    def chosen(self, choice: Mapping[str, str]) -> Element:
        """What is left when everything that does not hold for the choice is hidden."""
        left: list[Element | str] = [
            item if isinstance(item, str) else item.chosen(choice)
            for item in self.inside
            if isinstance(item, str) or item.holds(choice)
        ]
        return Element(self.tag, self.attributes, left)

    def holds(self, choice: Mapping[str, str]) -> bool:
        """As the page's style sheet has it."""
        return all(
            f"data-{axis}" not in self.attributes
            or token in self.attributes[f"data-{axis}"].split()
            for axis, token in choice.items()
        )


def read_page(path: Path) -> Element:
    """The page's root."""
    builder = _Builder()
    builder.feed(path.read_text("utf-8"))
    builder.close()
    return builder.root


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = Element("", {})
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {key: value or "" for key, value in attrs})
        self.open[-1].inside.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].inside.append(Element(tag, {key: value or "" for key, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        names = [element.tag for element in self.open]
        if tag in names[1:]:
            del self.open[len(names) - 1 - names[::-1].index(tag) :]

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)
