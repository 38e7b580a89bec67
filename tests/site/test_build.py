"""The site as MkDocs builds it, strictly, from a shop on disk."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote, urldefrag, urlsplit

import pytest
from page_tree import Element, read_page
from small_shop import HOSTILE_CALLED, HOSTILE_CLOTH, HOSTILE_NAME, build, open_shop

from pieceproof.fact_files import parse_facts
from pieceproof.prose_links import anchors

SLUGS = ("eddy-runner", "odd-names")
SITE_URL = "https://shop.example/"
LOADS = {"src", "href", "srcset", "action", "poster", "data", "formaction", "xlink:href"}


def pages(site: Path) -> Iterator[tuple[Path, Element]]:
    for path in sorted(site.rglob("*.html")):
        yield path, read_page(path)


def addresses(root: Element) -> Iterator[tuple[Element, str]]:
    for element in root.all():
        for key, value in element.attributes.items():
            if key in LOADS:
                yield element, value


def test_every_pattern_has_a_page_and_its_files(shop: Path) -> None:
    site = shop / "site" / "patterns"
    assert {path.name for path in site.iterdir()} >= {"index.html", "eddy-runner", "odd-names"}
    files = {path.name for path in (site / "eddy-runner").iterdir()}
    for size in ("small", "large"):
        for colourway in ("low-water", "boathouse"):
            assert {f"top-{size}-{colourway}.{kind}" for kind in ("svg", "png")} <= files
        assert {f"top-{size}-ink.svg", f"top-{size}-outline.svg"} <= files


def test_the_catalogue_shows_every_colourway(shop: Path) -> None:
    """Of the size that comes first, in the colourways' order, beside their names."""
    root = dict(pages(shop / "site"))[shop / "site" / "patterns" / "index.html"]
    pictures = [
        element.attributes["src"]
        for element in root.all()
        if element.tag == "img" and element.attributes["src"].startswith("eddy-runner/")
    ]
    names = ["eddy-runner/top-small-low-water.svg", "eddy-runner/top-small-boathouse.svg"]
    assert pictures == [names[0], *names]


def test_nothing_is_asked_of_another_host(shop: Path) -> None:
    """Every address that a browser would fetch; the site's own address is its own."""
    for path, root in pages(shop / "site"):
        for element, address in addresses(root):
            if element.tag != "a" and not address.startswith(SITE_URL):
                parts = urlsplit(address)
                assert not parts.netloc, (path, address)
                assert parts.scheme in ("", "data"), (path, address)
    ours = [p for p in (shop / "site").rglob("*.css") if "assets/stylesheets" not in p.as_posix()]
    assert ours
    for sheet in ours:
        assert not re.search(r"url\((?!#)|@import", sheet.read_text("utf-8")), sheet
    scripts = [*(shop / "site" / "assets" / "pieceproof").glob("*.js")]
    assert {"pieceproof.js", "catalogue.js"} <= {script.name for script in scripts}
    for script in scripts:
        text = script.read_text("utf-8")
        assert not re.search(r"https?:|fetch|XMLHttpRequest|import\b|sendBeacon", text), script


@pytest.mark.parametrize("directory_urls", [False, True])
def test_links_and_anchors_lead_somewhere(shop: Path, tmp_path: Path, directory_urls: bool) -> None:
    site = shop / "site"
    if directory_urls:
        folder = open_shop(tmp_path, directory_urls=True)
        site = folder / "site"
        assert build(folder, site).returncode == 0
    roots = dict(pages(site))
    for path, root in roots.items():
        if path.name == "404.html":  # its addresses are absolute, for a server
            continue
        for _, address in addresses(root):
            if address.startswith(SITE_URL) or not address:
                continue
            plain, anchor = urldefrag(address)
            target = (path.parent / unquote(urlsplit(plain).path)).resolve() if plain else path
            target = target / "index.html" if target.is_dir() else target
            assert target.exists(), (path, address)
            if anchor and anchor != "__skip":
                assert anchor in {e.attributes.get("id") for e in roots[target].all()}, address


def test_ids_are_unique_on_a_page(shop: Path) -> None:
    for path, root in pages(shop / "site" / "patterns"):
        ids = [e.attributes["id"] for e in root.all() if "id" in e.attributes]
        assert len(ids) == len(set(ids)), (path, {i for i in ids if ids.count(i) > 1})


def test_headings_can_be_linked_to_for_good(shop: Path) -> None:
    root = read_page(shop / "site" / "patterns" / "eddy-runner" / "index.html")
    anchors = [h.attributes.get("id") for tag in ("h2", "h3") for h in root.all(tag)]
    assert {"before-you-start", "materials", "cutting", "units", "make-point", "blocks"} < {
        *anchors
    }
    assert {"make-star", "top", "make-quilt_centre", "make-top", "finishing", "downloads"} < {
        *anchors
    }


def test_prose_may_link_to_every_place_that_the_check_knows(shop: Path) -> None:
    page = read_page(shop / "site" / "patterns" / "eddy-runner" / "index.html")
    facts = parse_facts((shop / "patterns" / "eddy-runner" / "facts-small.txt").read_text("utf-8"))
    known = anchors("", [fact.key for fact in facts])
    assert set(known) <= {element.attributes.get("id") for element in page.all()}
    assert "make-point" in known


def test_two_builds_have_the_same_bytes(shop: Path, tmp_path: Path) -> None:
    assert build(shop, tmp_path / "again").returncode == 0
    first, second = (
        {p.relative_to(site): p.read_bytes() for p in site.rglob("*") if p.is_file()}
        for site in (shop / "site", tmp_path / "again")
    )
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []


def test_hostile_names_stay_words(shop: Path) -> None:
    site = shop / "site"
    roots = [read_page(site / "patterns" / name) for name in ("index.html", "odd-names/index.html")]
    plain = read_page(site / "patterns" / "eddy-runner" / "index.html")
    known = {(e.tag, *sorted(e.attributes)) for e in plain.all() if e.tag in ("script", "iframe")}
    for root in roots:
        for element in root.all():
            assert not [key for key in element.attributes if key.startswith("on")]
            assert element.attributes.get("src") != "x"
            assert "javascript:" not in element.attributes.get("href", "")
            if element.tag in ("script", "iframe"):
                assert (element.tag, *sorted(element.attributes)) in known
                assert "alert" not in element.text
    page = roots[1]
    assert page.one("h1").text == " ".join(HOSTILE_NAME.split())
    assert HOSTILE_NAME in page.one("title").text
    assert HOSTILE_CALLED.capitalize() in page.text
    assert " ".join(HOSTILE_CLOTH.split()) in page.text
    assert "49" not in page.text
    assert roots[0].one("title").text == "Patterns - A small shop"


def test_search_holds_words_and_no_numbers_of_other_sizes(shop: Path) -> None:
    entries = json.loads((shop / "site" / "search" / "search_index.json").read_text())["docs"]
    found = {e["location"].rpartition("patterns/")[2]: e for e in entries}
    runner = [entry for place, entry in found.items() if place.startswith("eddy-runner")]
    assert {"Point unit", "Star block", "Materials"} <= {entry["title"] for entry in runner}
    odd = [entry for place, entry in found.items() if place.startswith("odd-names")]
    for entry in odd:
        assert not re.search(r"<(script|img|svg|b|i|u)\b", entry["title"] + entry["text"])
    cutting = next(entry["text"] for entry in runner if entry["title"] == "Cutting")
    assert "Square the end" in cutting
    assert not re.search(r"\d", cutting)


def test_prose_stands_where_it_belongs(shop: Path) -> None:
    root = read_page(shop / "site" / "patterns" / "eddy-runner" / "index.html")
    small, large = (root.chosen({"size": size}).text for size in ("small", "large"))
    assert "A runner to try things with." in small
    assert "Make 8 of them, all in a row." in small
    assert "Make 12 of them, all in a row." in large
    assert "Make 12 of them" not in small
    assert small.index("just covering the line of stitches") < small.index("Wash it once")


def test_a_broken_pattern_stops_the_build_with_all_its_problems(tmp_path: Path) -> None:
    folder = open_shop(tmp_path)
    first, second = (folder / "patterns" / slug / "pattern.yaml" for slug in SLUGS)
    first.write_text(first.read_text().replace("measure: inch", "measure: inhc"))
    second.write_text(second.read_text().replace("size: 6", "size: six"))
    (folder / "patterns" / "eddy-runner" / "link.md").symlink_to(Path(__file__))
    done = build(folder, folder / "site")
    assert done.returncode == 1
    assert "patterns/eddy-runner/pattern.yaml:4:10: unknown-value" in done.stderr
    assert "write `inch`" in done.stderr
    line = second.read_text().split("\n").index("    size: six") + 1
    assert f"patterns/odd-names/pattern.yaml:{line}:11: bad-length" in done.stderr
    assert "patterns/eddy-runner/link.md:1:1: not-a-plain-file" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (folder / "site" / "patterns").exists()


def test_broken_prose_stops_the_build(tmp_path: Path) -> None:
    folder = open_shop(tmp_path)
    prose = folder / "patterns" / "eddy-runner" / "prose.md"
    prose.write_text("Cut it at {unit poynt, make}.\n")
    done = build(folder, folder / "site")
    assert done.returncode == 1
    assert "patterns/eddy-runner/prose.md:1:11: prose-unknown-fact" in done.stderr


def test_stale_and_missing_facts_stop_the_build_with_the_difference(tmp_path: Path) -> None:
    folder = open_shop(tmp_path)
    facts = folder / "patterns" / "eddy-runner" / "facts-small.txt"
    facts.write_text(facts.read_text().replace("unit point, make = 8", "unit point, make = 9"))
    (folder / "patterns" / "odd-names" / "facts-one_size.txt").unlink()
    done = build(folder, folder / "site")
    assert done.returncode == 1
    assert "-unit point, make = 9\n+unit point, make = 8" in done.stderr
    assert "facts-missing" in done.stderr
    assert "pieceproof facts" in done.stderr


def test_nothing_is_written_outside_the_site(shop: Path, tmp_path: Path) -> None:
    """Outside its site, a shop that was built is a shop that was not."""
    fresh = {p.relative_to(tmp_path): p.read_bytes() for p in files_below(open_shop(tmp_path))}
    built = {p.relative_to(shop): p.read_bytes() for p in files_below(shop)}
    assert {path: data for path, data in built.items() if path.parts[0] != "site"} == fresh


def files_below(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]
