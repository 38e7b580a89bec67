"""The shop's own pages: none in the public build, all of them, sound, in the shop's build."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest
from page_tree import VOID, Element, read_page
from small_shop import HOSTILE_CLOTH, STOCK, build, built_shop, open_shop

BATCHES = {
    "eddy-runner-small-low-water-1",
    "eddy-runner-large-low-water-12",
    "eddy-runner-large-low-water-12-lamp-gold",
    "odd-names-one_size-one-3-110-wide",
}
SECRETS = (
    *("77.70", "Lamp Gold", "21.50", "kits.css", "kits.yaml", "kit-labels"),
    *("Behind the counter", "Proof sheets", "shop/index.html", '"shop/', "Price of a kit"),
)


@pytest.fixture(scope="module")
def kits(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop's own build."""
    return built_shop(tmp_path_factory, PIECEPROOF_SHOP="true") / "site"


def sheet(kits: Path, name: str = "eddy-runner-large-low-water-12") -> Element:
    return read_page(kits / "shop" / name / "index.html")


def test_the_public_build_has_nothing_of_it(shop: Path) -> None:
    site = shop / "site"
    assert not (site / "shop").exists()
    assert (site / "search" / "search_index.json").is_file()
    for path in sorted(p for p in site.rglob("*") if p.is_file()):
        data = path.read_bytes()
        assert not [secret for secret in SECRETS if secret.encode() in data], path
    assert not list(site.rglob("kits.css"))


def test_the_repository_s_own_site_is_public_unless_told() -> None:
    text = (Path(__file__).parents[2] / "mkdocs.yml").read_text("utf-8")
    assert "shop: !ENV [PIECEPROOF_SHOP, false]" in text


def test_the_shop_s_build_has_every_batch(kits: Path) -> None:
    folders = {path.name for path in (kits / "shop").iterdir() if path.is_dir()}
    assert folders == {*BATCHES, "proof"}
    index = read_page(kits / "shop" / "index.html")
    links = [a.attributes["href"] for item in index.all("ul", "kit-batches") for a in item.all("a")]
    assert {link.split("/")[0] for link in links} == BATCHES
    proofs = {a.attributes["href"] for a in index.all("a") if a.text == "Proof sheets"}
    assert "proof/index.html" in proofs
    assert all((kits / "shop" / href).is_file() for href in proofs)
    front = read_page(kits / "index.html")
    assert any(a.attributes.get("href", "").startswith("shop/") for a in front.all("a"))


@pytest.mark.parametrize("name", ["index.html", *sorted(f"{b}/index.html" for b in BATCHES)])
def test_pages_are_sound(kits: Path, name: str) -> None:
    """Ids once, every picture there and told, heads for columns, headings in order, tags closed."""
    path = kits / "shop" / name
    root = read_page(path)
    ids = [e.attributes["id"] for e in root.all() if "id" in e.attributes]
    assert [i for i, n in Counter(ids).items() if n > 1] == []
    main = root.one("article")
    for image in main.all("img"):
        assert (path.parent / image.attributes["src"]).is_file()
        assert "alt" in image.attributes
    for table in main.all("table"):
        heads = list(table.one("thead").all("th"))
        assert all(head.attributes.get("scope") == "col" and head.text for head in heads)
        for row in table.one("tbody").all("tr"):
            cells = [cell for tag in ("th", "td") for cell in row.all(tag)]
            assert sum(int(c.attributes.get("colspan", 1)) for c in cells) == len(heads)
    levels = [int(e.tag[1]) for e in main.all() if re.fullmatch("h[1-6]", e.tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))
    text = path.read_text("utf-8")
    inside = text[text.index("<article") : text.index("</article>")]
    opened = Counter(re.findall(r"<([a-z][a-z0-9]*)\b", inside))
    closed = Counter(re.findall(r"</([a-z][a-z0-9]*)>", inside)) + Counter({"article": 1})
    assert {t: n for t, n in opened.items() if t not in VOID} == {
        t: n for t, n in closed.items() if t not in VOID
    }


def test_labels_and_boxes(kits: Path) -> None:
    """One label a bag, numbered; piles hold what the packing list asks for; two boxes each."""
    page = sheet(kits)
    bags = [li.text for ul in page.all("ul", "kit-bags") for li in ul.all("li")]
    assert len(bags) == 12
    assert all(f"Kit {number} of 12" in text for number, text in enumerate(bags, 1))
    piled: Counter[str] = Counter()
    for label in page.one("ul", "kit-piles").all("li"):
        numbers = re.search(r"(\d+) in pile \d+ of \d+ (\d+) in each bag", label.text)
        assert numbers is not None
        piled[label.one("p").text + label.one("strong", "length").text] += int(numbers[1])
        assert len(list(label.all("span", "kit-box"))) == 2
        assert list(label.all("img"))
    batch, bag, *beside = page.all("table", "kit-pack")
    assert [other.text for other in beside] == [bag.text]
    wanted: Counter[str] = Counter()
    for row in list(bag.all("tr"))[1:-2]:
        head = row.one("th")
        key = next(head.all("b")).text + head.one("span", "length").text
        wanted[key] += 12 * int(row.one("td", "number").one("strong").text)
        assert len(list(row.all("span", "kit-box"))) == 2
    assert piled == wanted
    totals = [
        int(row.one("td", "number").one("strong").text) for row in batch.one("tbody").all("tr")
    ]
    assert sum(totals) == sum(wanted.values())


def test_costs_add_up_as_printed(kits: Path) -> None:
    rows = [
        [cell.text for tag in ("th", "td") for cell in row.all(tag)]
        for row in sheet(kits).one("table", "kit-cost").one("tbody").all("tr")
    ]
    pence = {row[0]: round(float(row[-1].split()[0]) * 100) for row in rows}
    lines = [pence[row[0]] for row in rows if len(row) == 3]
    assert sum(lines) == pence["Costs"]
    assert pence["Costs"] + pence["Overhead"] + pence["Margin"] == pence["Price of the batch"]
    assert -(-pence["Price of the batch"] // 12) == pence["Price of one kit, before tax"]


def test_the_change_sheet_and_what_is_missing(kits: Path) -> None:
    swapped = sheet(kits, "eddy-runner-large-low-water-12-lamp-gold")
    assert "Ferry Ochre" in swapped.text
    assert "bolts" in swapped.one("p", "note").text
    odd = sheet(kits, "odd-names-one_size-one-3-110-wide")
    assert "There is no price" in odd.text
    assert " ".join(HOSTILE_CLOTH.split()) in odd.text
    assert not [e for e in odd.all() if any(key.startswith("on") for key in e.attributes)]


def test_cautions_are_there(kits: Path) -> None:
    text = sheet(kits).text
    for words in ("cut away from yourself", "does not slip", "maker's instructions", "workplace"):
        assert words in text


def test_a_mistake_in_the_shop_s_file_stops_the_shop_s_build_only(tmp_path: Path) -> None:
    folder = open_shop(tmp_path)
    (folder / "patterns" / "kits.yaml").write_text(STOCK.replace("wage: 21.50", "wage: much"))
    done = build(folder, folder / "site", PIECEPROOF_SHOP="true")
    assert done.returncode == 1
    assert "patterns/kits.yaml" in done.stderr
    assert "bad-amount" in done.stderr
    assert "Traceback" not in done.stderr
