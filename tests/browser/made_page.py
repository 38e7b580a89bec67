"""A pattern's generated pages as plain HTML files, without a site around them."""

from __future__ import annotations

from pathlib import Path

import pieceproof
from pieceproof.compile import compile_pattern
from pieceproof.pages.page import Page
from pieceproof.pages.pattern import publish_pattern
from pieceproof.prose import Prose

STATIC = Path(pieceproof.__file__).parent / "static"


def made(folder: Path, text: str, pictures: dict[str, bytes] | None = None) -> Path:
    """Write a pattern's page, the pages below it and its files; returns its folder."""
    files = {"pattern.yaml": text.encode(), **(pictures or {})}
    pattern = compile_pattern("eddy-runner", files)
    assert not pattern.problems, pattern.problems
    published = publish_pattern(pattern, Prose(), files, {})
    for name, content in published.files.items():
        (folder / name).write_bytes(content)
    for path, page in {"index.md": published.page, **published.more}.items():
        html = folder / Path(path).with_suffix(".html")
        html.parent.mkdir(exist_ok=True)
        html.write_text(_html(page), "utf-8")
    return folder


def _html(page: Page) -> str:
    style = (STATIC / "pieceproof.css").read_text("utf-8")
    scripts = (path.read_text("utf-8") for path in sorted(STATIC.glob("*.js")))
    body = "\n".join(page.fragments)
    ends = "".join(f"<script>{script}</script>" for script in scripts)
    viewport = '<meta name="viewport" content="width=device-width">'
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">{viewport}'
        f"<style>{style}</style></head>"
        f'<body class="md-typeset">{body}{ends}</body></html>'
    )
