"""An explanation of a problem as text for the terminal and as a page of the handbook.

In: the explanations of the package, messages by code. Out: text, or Markdown.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from textwrap import fill, indent

from pieceproof.explained import TOPICS
from pieceproof.explained.explanation import Explained

_WIDTH = 80


def explanation_text(code: str, explained: Explained) -> str:
    """One explanation for the terminal."""
    parts = [code, fill(explained.means, _WIDTH)]
    if explained.wrong:
        parts.append(_example("Wrong", explained.wrong))
    if explained.right:
        parts.append(_example("Right", explained.right))
    return "\n\n".join([*parts, fill(f"Remedy: {explained.remedy}", _WIDTH)])


def reference_page(messages: Mapping[str, str]) -> str:
    """All explanations as Markdown, by topic, with a message of each code that is among these."""
    return "\n\n".join([*_reference(messages)]) + "\n"


def _reference(messages: Mapping[str, str]) -> Iterator[str]:
    yield (
        "# Problems\n\n"
        "A problem names the file, the line and the column, what was found, what was expected and "
        "the remedy. Its code leads here; `pieceproof explain` prints the same in the terminal."
    )
    for topic in TOPICS:
        yield f"## {topic.title}"
        for code, explained in topic.codes.items():
            yield f"### `{code}` {{#{code}}}"
            yield explained.means
            if code in messages:
                yield f"The message:\n\n{indent(messages[code].rstrip(), '    ')}"
            for word, text in (("Wrong", explained.wrong), ("Right", explained.right)):
                if text:
                    yield f"{word}:\n\n{indent(text, '    ')}"
            yield f"*Remedy:* {explained.remedy}"


def _example(word: str, text: str) -> str:
    return f"{word}:\n{indent(text, '  ')}"
