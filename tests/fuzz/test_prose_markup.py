"""Whatever is typed into prose: no exception, and no HTML but Markdown's own reaches a page.

The page is made with Python-Markdown and the extensions that could make most of the text.
"""

from html.parser import HTMLParser

import markdown
from hypothesis import given, settings
from hypothesis import strategies as st

from pieceproof.facts import Fact
from pieceproof.prose import SizeFacts, write_prose

FILE = "patterns/low-water/prose.md"
EXTENSIONS = [
    "attr_list", "md_in_html", "def_list", "footnotes", "abbr", "tables", "admonition", "toc",
    "pymdownx.superfences", "pymdownx.blocks.html", "pymdownx.inlinehilite", "pymdownx.tilde",
]  # fmt: skip
BRICKS = [
    *"<>{}[]()!#:;&\"'`~\\/=-*_ \n\t%|^$",
    "<script>", "</script>", "<img src=x onerror=alert(1)>", "javascript:alert(1)", "![", "](",
    "https://example.org/x", "http://evil.example/x.png", "//evil.example/x.png",
    "data:text/html,x",
    "]: ", "\n\n", "{a}", "{: onclick=x }", "{unit point, make}", "heron.jpg", "../", "&lt;",
    "&#60;",
    "/// html | iframe\n", "<!--", "-->", "<https://example.org>", "a", "Cutting", "\n## Cutting\n",
    "    ", "```\n", "\u2028", "\x02", "\x03", "wzxhzdk:0", "&colon;", "1. ", "- ",
]  # fmt: skip
SAFE_TAGS = (
    *("p", "em", "strong", "ul", "ol", "li", "h3", "h4", "h5", "h6", "a", "img", "br", "hr"),
    *("blockquote", "code", "pre", "table", "thead", "tbody", "tr", "th", "td"),
    *("dl", "dt", "dd", "abbr", "div", "span", "sup", "sub", "del"),
)
SIZE = SizeFacts("short", ("Cutting",), {"a": Fact("a", "x", "x", '*x* <b> [y](z) 1"')})


class Watcher(HTMLParser):
    """Collects what could do more than show text."""

    def __init__(self) -> None:
        super().__init__()
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in SAFE_TAGS:
            self.faults.append(tag)
        for name, value in attrs:
            text = (value or "").strip().lower()
            plain_link = name == "href" and text.startswith(("https://", "#"))
            local = ":" not in text and "//" not in text and ".." not in text
            if name.startswith("on") or name == "style":
                self.faults.append(f"{tag} {name}={value}")
            if name in ("href", "src", "srcset", "action", "data") and not (plain_link or local):
                self.faults.append(f"{tag} {name}={value}")


@settings(max_examples=1500, deadline=None)
@given(st.lists(st.sampled_from(BRICKS) | st.text(max_size=3), max_size=14).map("".join))
def test_no_foreign_html_reaches_a_page(text: str) -> None:
    prose, problems, lines = write_prose(
        FILE, text.encode("utf-8", "replace"), (SIZE,), ("heron.jpg",)
    )
    for problem in problems:
        assert 1 <= problem.place.line <= len(lines)
        assert problem.place.column >= 1
    for passage in prose.sizes.get("short", ()):
        watcher = Watcher()
        watcher.feed(markdown.markdown(passage.text, extensions=EXTENSIONS))
        assert watcher.faults == []


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_reported(data: bytes) -> None:
    prose, problems, _ = write_prose(FILE, data, (SIZE,), ())
    assert bool(prose.sizes) != bool(problems)
