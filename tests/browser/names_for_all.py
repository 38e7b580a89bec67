"""What axe-core finds on a page: all its rules, only violations."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

NOT_SHOWN = """
    document.querySelectorAll('.pattern [data-size], .pattern [data-colourway]').forEach(
        item => { if (!item.getClientRects().length) item.remove(); })
"""


def violations(page: Page) -> list[str]:
    """Each with its rule. What is not displayed goes first: axe skips it, only slowly."""
    page.evaluate(NOT_SHOWN)
    found = Axe().run(
        page, context={"exclude": [["svg > *"]]}, options={"resultTypes": ["violations"]}
    )
    return [
        f"{violation['id']}: {node['html'][:120]}"
        for violation in found.response["violations"]
        for node in violation["nodes"]
    ]
