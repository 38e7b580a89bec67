"""Every pattern of the shop in a real browser: fit, weight, silence, names for all, paper."""

from __future__ import annotations

import gzip
import io
import re
import threading
from collections.abc import Iterator, Mapping
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote

import pypdfium2
import pytest
from names_for_all import violations
from page_tree import read_page
from playwright.sync_api import Browser, Page

from pieceproof.fact_files import parse_facts

ROOT = Path(__file__).parents[2]
SLUGS = sorted(path.parent.name for path in (ROOT / "patterns").glob("*/pattern.yaml"))
HEAVIEST = 350_000
SLOW_PHONE_MS = 2000


def address(site: Path, slug: str) -> str:
    return (site / "patterns" / slug / "index.html").as_uri()


@pytest.mark.parametrize("slug", SLUGS)
def test_fits_every_screen_asks_nobody_and_keeps_no_cookie(
    site: Path, browser: Browser, slug: str
) -> None:
    """320 px: WCAG 2.2, success criterion 1.4.10; 640 px at 200 % zoom is the same as 320."""
    context = browser.new_context(viewport={"width": 1280, "height": 800})
    page = context.new_page()
    asked: list[str] = []
    broken: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("requestfailed", lambda request: broken.append(request.url))
    page.on("pageerror", lambda error: broken.append(str(error)))
    page.goto(address(site, slug))
    for width in (1280, 768, 390, 320):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    local = (site.as_uri(), "data:", "blob:")
    assert [url for url in asked if not url.startswith(local)] == []
    assert broken == []
    assert context.cookies() == []
    context.close()


def test_no_mark_of_the_text_files_is_left_on_a_page(site: Path) -> None:
    """A fence that Markdown did not understand turns a whole file into prose."""
    pages = sorted(site.rglob("*.html"))
    assert len(pages) > len(SLUGS)
    assert [page.name for page in pages if "```" in page.read_text("utf-8")] == []


@pytest.mark.parametrize("slug", SLUGS)
def test_a_page_weighs_little(site: Path, slug: str) -> None:
    """The page, its style sheets and scripts, gzipped, and all fonts; search loads on demand."""
    folder = site / "patterns" / slug
    root = read_page(folder / "index.html")
    linked = [e.attributes.get("href", "") for e in root.all("link")]
    linked += [e.attributes.get("src", "") for e in root.all("script")]
    files = {
        (folder / unquote(name.partition("?")[0])).resolve()
        for name in linked
        if name.partition("?")[0].endswith((".css", ".js"))
    }
    text = [folder / "index.html", *files]
    zipped = sum(len(gzip.compress(path.read_bytes(), 6)) for path in text)
    fonts = sum(path.stat().st_size for path in site.glob("assets/fonts/*.woff2"))
    assert zipped + fonts < HEAVIEST


@pytest.mark.parametrize(
    ("path", "scheme"),
    [
        ("index.html", "light"),
        ("index.html", "dark"),
        ("weir-pool/index.html", "light"),
        ("ferry-wake/index.html", "dark"),
    ],
)
def test_axe_finds_nothing(site: Path, browser: Browser, path: str, scheme: str) -> None:
    page = browser.new_page(
        viewport={"width": 1280, "height": 900},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page.goto((site / "patterns" / path).as_uri())
    if path == "index.html":
        page.get_by_text("Narrow down").click()
    assert violations(page) == []
    page.close()


class Zipped(SimpleHTTPRequestHandler):
    """Files as web servers send them: compressed, but for what is compressed already."""

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        if not path.is_file():
            self.send_error(404)
            return
        data = path.read_bytes()
        self.send_response(200)
        if path.suffix not in (".png", ".woff2"):
            data = gzip.compress(data, 6)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def served(site: Path) -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Zipped, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


def on_a_slow_phone(browser: Browser, url: str) -> Mapping[str, float]:
    """Slow 4G as Chromium's developer tools have it: 150 ms, 1.6 Mbit/s; processor at a quarter."""
    context = browser.new_context(
        viewport={"width": 390, "height": 780}, is_mobile=True, has_touch=True
    )
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    limits = {"latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 94_000}
    session.send("Network.emulateNetworkConditions", {"offline": False, **limits})
    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
    page.add_init_script(
        "window.jumped = 0; new PerformanceObserver(list => list.getEntries().forEach("
        "entry => { window.jumped += entry.value; })).observe({type: 'layout-shift'});"
    )
    page.goto(url, wait_until="load")
    page.wait_for_function("document.fonts.status === 'loaded'")
    paint = "performance.getEntriesByName('first-contentful-paint')[0].startTime"
    seen = {"paint": page.evaluate(paint), "jumped": page.evaluate("window.jumped")}
    context.close()
    return seen


@pytest.mark.parametrize("slug", ["heron-landing", "osier-island"])
def test_usable_soon_and_still_on_a_slow_phone(served: str, browser: Browser, slug: str) -> None:
    """Choosing needs no script, so the page can be used once it is painted.

    Jumps: 0.1 is what web vitals call good. The better of three loads: other tests run beside.
    """
    url = f"{served}/patterns/{slug}/index.html"
    best = {"paint": float("inf"), "jumped": float("inf")}
    for _ in range(3):
        best = min(best, on_a_slow_phone(browser, url), key=lambda seen: seen["paint"])
        if best["paint"] < SLOW_PHONE_MS:
            break
    assert best["paint"] < SLOW_PHONE_MS
    assert best["jumped"] < 0.1


def facts_of(slug: str, size: str) -> Mapping[str, str]:
    text = (ROOT / "patterns" / slug / f"facts-{size}.txt").read_text("utf-8")
    return {fact.key: fact.published for fact in parse_facts(text)}


def test_her_cloth_and_metres_are_those_of_the_facts(site: Path, browser: Browser) -> None:
    """The runner in its middle size, for cloth 40 in wide, bought by the metre."""
    facts = facts_of("heron-landing", "middle")
    page = browser.new_page()
    page.goto(address(site, "heron-landing") + "#size=middle&width=40&measure=metres")
    bought = [cell.inner_text() for cell in shown(page, ".materials tbody td")]
    wanted = {
        f"{value} m" for key, value in facts.items() if key.endswith("usable width 40, metres")
    }
    assert set(bought[:-1]) <= wanted
    assert facts["finished size, about"] in page.locator(".key-numbers").inner_text()
    skill = " ".join(p.inner_text() for p in shown(page, ".skill > span"))
    assert f"{facts['skill, seams to sew']} seams" in skill
    page.close()


def test_edition_and_corrections_stand_where_they_are_needed(site: Path, browser: Browser) -> None:
    """Edition 1.1 of the runner corrected its longest size, for who has bought or cut by 1.0."""
    page = browser.new_page()
    page.goto(address(site, "heron-landing") + "#size=long&width=40")
    assert "edition 1.1, 5 October 2026" in page.locator(".pattern-kind").inner_text()
    told = [item.inner_text() for item in shown(page, ".pattern h2, .correction")]
    bought, cut = told[told.index("Materials") + 1], told[told.index("Cutting") + 1]
    assert "already bought your cloth by an edition before 1.1" in bought
    assert "already cut by an edition before 1.1" in cut
    page.locator("label:has(#pp-size-short)").click()
    assert not shown(page, ".correction")
    page.close()


def shown(page: Page, selector: str) -> list:
    return [item for item in page.locator(selector).all() if item.is_visible()]


def test_paper_has_what_a_sewist_needs_and_no_more(site: Path, browser: Browser) -> None:
    page = browser.new_page()
    page.goto(address(site, "heron-landing") + "#size=middle&colourway=boathouse")
    document = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format="A4")))
    page.close()
    sheets = [" ".join(sheet.get_textpage().get_text_range().split()) for sheet in document]
    text = " ".join(sheets)
    assert 5 <= len(sheets) <= 10
    (making,) = (sheet for sheet in sheets if "Point unit" in sheet and "Make 20" in sheet)
    beside = making.replace(" ", "")  # kerning hides spaces from the reader of the PDF
    assert "drawalinefromcornertocorner" in beside
    assert "ConA,bottomleftcorner" in beside  # the drawing's own words: not split from its step
    made = facts_of("heron-landing", "middle")["unit point, make"]
    assert f"Make {made}" in text
    assert "Five stars" in text
    assert not re.search(r"Copy the shopping list|Untick|Change|Downloads|file://|Narrow", text)
