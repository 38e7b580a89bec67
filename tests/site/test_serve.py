"""`mkdocs serve` builds again when a pattern changes, and keeps the last good page."""

from __future__ import annotations

import os
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

PATIENCE_S = 40


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    """The shop's folder and the address of its runner, served on a free port."""
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
            yield folder, f"http://127.0.0.1:{port}/patterns/eddy-runner/index.html"
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


def test_an_edit_reaches_the_page_and_a_mistake_does_not(served: tuple[Path, str]) -> None:
    folder, address = served
    pattern = folder / "patterns" / "eddy-runner" / "pattern.yaml"
    assert wait_until(lambda: "<h1>Eddy Runner</h1>" in text_at(address))

    text = pattern.read_text().replace("Eddy Runner", "Backwater Runner")
    text = text.replace("heart: [ochre, rose]", "heart: [ochre, rose, brick]")
    auditions = address.replace("index.html", "auditions/index.html")
    assert tops_at(auditions) == 2 * 2 * 3, "in colour and in grey"
    pattern.write_text(text)
    assert wait_until(lambda: "<h1>Backwater Runner</h1>" in text_at(address))
    assert tops_at(auditions) == 2 * 3 * 3, "one candidate more is seen at once"

    pattern.write_text(text.replace("Backwater", "Broken").replace("leg: 2 1/4", "leg: long"))
    log = folder / "log.txt"
    assert wait_until(lambda: "bad-length" in log.read_text())
    assert "<h1>Backwater Runner</h1>" in text_at(address)

    pattern.write_text(text.replace("Backwater", "Mended"))
    assert wait_until(lambda: "<h1>Mended Runner</h1>" in text_at(address))
    assert "Traceback" not in log.read_text()
