"""For every choice a reader can make, the page says what the committed facts files say.

The facts are read back from their files on disk and the page from its HTML, with what does not
hold for the choice taken out as the style sheet does; the package's own values take no part.
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import product
from pathlib import Path

import pytest
from page_tree import Element, read_page

from pieceproof.fact_files import parse_facts

CHOICES = [
    dict(zip(("size", "colourway", "width", "measure", "hand"), choice, strict=True))
    for choice in product(
        ("small", "large"), ("low-water", "boathouse"), ("42", "40"), ("yards", "metres"), ("left",)
    )
]


@pytest.fixture(scope="module")
def page(shop: Path) -> Element:
    return read_page(shop / "site" / "patterns" / "eddy-runner" / "index.html")


def facts_of(shop: Path, size: str) -> dict[str, str]:
    text = (shop / "patterns" / "eddy-runner" / f"facts-{size}.txt").read_text("utf-8")
    return {fact.key: fact.published for fact in parse_facts(text)}


def played(facts: dict[str, str], colourway: str) -> list[str]:
    start = f"colourway {colourway}, cloth "
    return [value for key, value in facts.items() if key.startswith(start)]


def size_of(facts: dict[str, str], key: str) -> str:
    return f'{facts[f"{key}, width"]}" x {facts[f"{key}, height"]}"'


def numbers(pattern: str, text: str) -> tuple[str, ...]:
    found = re.match(pattern, text)
    assert found is not None, text
    return found.groups()


@pytest.mark.parametrize("choice", CHOICES, ids=lambda choice: "-".join(choice.values()))
def test_lengths_to_buy(shop: Path, page: Element, choice: dict[str, str]) -> None:
    facts = facts_of(shop, choice["size"])
    unit = {"yards": "yd", "metres": "m"}[choice["measure"]]
    ending = f"usable width {choice['width']}, {choice['measure']}"
    groups = played(facts, choice["colourway"])
    wanted = Counter(f"{facts[f'{group}, {ending}']} {unit}" for group in groups)
    batting = size_of(facts, "batting, size")
    rows = list(page.chosen(choice).one("table", "materials").all("tbody"))
    assert Counter(row.one("td").text for row in rows) == wanted + Counter([batting])


@pytest.mark.parametrize("choice", CHOICES[::2], ids=lambda choice: "-".join(choice.values()))
def test_pieces_and_strips_to_cut(shop: Path, page: Element, choice: dict[str, str]) -> None:
    """Letters, counts and sizes add up to the cutting list; strips to those of the plan."""
    facts = facts_of(shop, choice["size"])
    cut: Counter[tuple[str, str]] = Counter()
    strips: Counter[str] = Counter()
    for row in (r for t in page.chosen(choice).all("table", "cutting-list") for r in t.all("tr")):
        words = "".join(cell.text for cell in [*row.all("td")][-1:])
        if "strip" in row.attributes.get("class", "") and "width of cloth" in words:
            count, height = numbers(r'(\d+) strips? ([\d /]+)" × width', words)
            strips[height] += int(count)
        elif list(row.all("b", "letter")):
            letter, count = row.one("b", "letter").text, row.text.split("(")[1].split(")")[0]
            cut[letter, row.one("span", "length").text.replace('"', "")] += int(count)
    listed = {
        (key.split()[1].rstrip(","), value): int(facts[key.replace(", cut", ", count")])
        for key, value in facts.items()
        if key.startswith("piece ") and key.endswith(", cut")
    }
    assert cut == listed
    planned: Counter[str] = Counter()
    for group in played(facts, choice["colourway"]):
        start = f"{group}, usable width {choice['width']}, cut "
        for value in (value for key, value in facts.items() if key.startswith(start)):
            count, height = numbers(r"(\d+) strips? ([\d /]+) wide", value)
            planned[height] += int(count)
    assert strips == planned


@pytest.mark.parametrize("size", ["small", "large"])
def test_makes_and_sizes(shop: Path, page: Element, size: str) -> None:
    facts = facts_of(shop, size)
    shown = page.chosen({"size": size})
    assert shown.one("dl", "key-numbers").one("dd").text == size_of(facts, "finished size")
    steps = [step for step in shown.all("li", "step") if list(step.all("span", "make-count"))]
    names = ["unit point", "block star set B", "block star", "quilt centre", "top"]
    assert len(steps) == len(names)
    for name, step in zip(names, steps, strict=True):
        assert step.one("span", "make-count").text == f"Make {facts[f'{name}, make']}"
        unfinished = size_of(facts, f"{name}, unfinished")
        assert step.one("span", "unfinished").text == f"unfinished {unfinished}"


@pytest.mark.parametrize("choice", CHOICES[::4], ids=lambda choice: "-".join(choice.values()))
def test_back_and_binding(shop: Path, page: Element, choice: dict[str, str]) -> None:
    facts = facts_of(shop, choice["size"])
    text = page.chosen(choice).text
    assert f"Make the back at least {size_of(facts, 'backing, size')}." in text
    join = facts[f"binding, usable width {choice['width']}, join binding"]
    (strips,) = numbers(r"(\d+) strips? ", join)
    wide, long = facts["binding, cut width"], facts["binding, length"]
    assert f'Join the {strips} strips, {wide}" wide, to {long}"' in text


def test_each_choice_shows_each_thing_once(page: Element) -> None:
    for choice in CHOICES:
        shown = page.chosen(choice)
        head = shown.one("header", "pattern-head")
        assert len(list(head.all("figure", "paper-only"))) == 1
        assert len(list(head.all("figure"))) == 2
        for section in shown.all("section", "beside"):
            assert len(list(section.all("table"))) == 1
            assert len(list(section.all("img"))) <= 1
        for row in shown.one("table", "materials").all("tbody"):
            assert len(list(row.all("span", "swatch"))) == 1


def test_choices_of_the_page_are_those_of_its_style_sheet(shop: Path, page: Element) -> None:
    """`Element.chosen` stands for these rules; the browser tests apply them for real."""
    sheet = (shop / "site" / "patterns" / "eddy-runner" / "choices.css").read_text("utf-8")
    buttons = {i.attributes["id"] for i in page.one("form", "chooser").all("input")}
    assert buttons == set(re.findall(r"has\(#([\w-]+):checked\) \[data-", sheet))
