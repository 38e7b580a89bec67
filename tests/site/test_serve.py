"""`mkdocs serve` builds again when a pattern changes, and keeps the last good page."""

from __future__ import annotations

import html
import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest
from small_shop import open_shop

PATIENCE_S = 120


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    """The shop's folder and the address of its patterns, served on a free port."""
    folder = open_shop(tmp_path)
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    with (tmp_path / "log.txt").open("wb") as log:
        server = subprocess.Popen(
            [sys.executable, "-m", "mkdocs", "serve", "-a", f"127.0.0.1:{port}"],
            cwd=folder,
            env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
            stdout=log,
            stderr=log,
        )
        try:
            yield folder, f"http://127.0.0.1:{port}/patterns"
        finally:
            server.terminate()
            server.wait(10)


def text_at(address: str) -> str:
    try:
        with urlopen(address, timeout=PATIENCE_S) as answer:
            return str(answer.read().decode("utf-8"))
    except (URLError, ConnectionError):
        return ""


def tops_at(address: str) -> int:
    """How many tops an auditions page shows."""
    return text_at(address).count('<figure class="drawing"')


def wait_until(happened: Callable[[], bool]) -> bool:
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        if happened():
            return True
        time.sleep(0.3)
    return False


def test_an_edit_reaches_the_page_and_so_does_a_mistake(served: tuple[Path, str]) -> None:
    """The problem stands above the last good page, as in the terminal, until it is mended."""
    folder, patterns = served
    address, catalogue = f"{patterns}/eddy-runner/index.html", f"{patterns}/index.html"
    pattern = folder / "patterns" / "eddy-runner" / "pattern.yaml"
    assert wait_until(lambda: "<h1>Eddy Runner</h1>" in text_at(address))
    assert 'role="alert"' not in text_at(address)

    text = pattern.read_text().replace("Eddy Runner", "Backwater Runner")
    text = text.replace("heart: [ochre, rose]", "heart: [ochre, rose, brick]")
    auditions = address.replace("index.html", "auditions/index.html")
    assert tops_at(auditions) == 2 * 2 * 3, "in colour and in grey"
    pattern.write_text(text)
    assert wait_until(lambda: "<h1>Backwater Runner</h1>" in text_at(address))
    assert tops_at(auditions) == 2 * 3 * 3, "one candidate more is seen at once"

    pattern.write_text(text.replace("Backwater", "Broken").replace("leg: 2 1/4", "leg: long"))
    log = folder / "log.txt"
    assert wait_until(lambda: 'role="alert"' in text_at(address))
    page = text_at(address)
    assert page.index('role="alert"') < page.index("<h1>Backwater Runner</h1>")
    (alert,) = re.findall(r'<section class="failing".*?</section>', page, re.DOTALL)
    told = [html.unescape(one) for one in re.findall(r"<pre>(.*?)</pre>", alert, re.DOTALL)]
    assert len(told) == 2
    assert "patterns/eddy-runner/pattern.yaml:21:40: bad-length" in told[0]
    assert "remedy:" in told[0]
    logged = log.read_text()
    for one in told:
        assert all(line.strip() in logged for line in one.splitlines())
    assert 'href="eddy-runner/index.html">eddy-runner</a>' in text_at(catalogue)

    new = folder / "patterns" / "new-one"
    new.mkdir()
    (new / "pattern.yaml").write_text("name: New One\n")
    alone = f"{patterns}/new-one/index.html"
    assert wait_until(lambda: "missing-key" in text_at(alone))
    assert "It has no page until they are mended." in text_at(alone)
    (new / "pattern.yaml").unlink()
    new.rmdir()

    pattern.write_text(text.replace("Backwater", "Mended"))
    assert wait_until(lambda: "<h1>Mended Runner</h1>" in text_at(address))
    assert 'role="alert"' not in text_at(address) + text_at(catalogue)
    assert "Traceback" not in log.read_text()
