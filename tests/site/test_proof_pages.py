"""Proof sheets in the site: in the shop's own build, and in no other."""

from __future__ import annotations

from pathlib import Path

import pytest
from page_tree import read_page
from small_shop import built_shop


def test_only_the_shops_own_build_has_them(
    shop: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    assert not (shop / "site" / "shop").exists()
    assert "Proof sheet" not in (shop / "site" / "index.html").read_text("utf-8")
    site = built_shop(tmp_path_factory, PIECEPROOF_SHOP="true") / "site"
    for slug in ("eddy-runner", "odd-names"):
        root = read_page(site / "shop" / "proof" / slug / "index.html")
        heads = [e.text for e in root.one("article").all("h2")]
        assert [head.strip() for head in heads[-2:]] == ["Since the release", "Sign-off"]
        for table in root.one("article").all("table"):
            columns = len(list(table.one("thead").all("th")))
            rows = list(table.one("tbody").all("tr"))
            assert rows
            for row in rows:
                assert len([*row.all("th"), *row.all("td")]) == columns
