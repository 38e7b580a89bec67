"""The built site, made once for all workers, and a browser for each module."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import started
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site's folder: the one that `.ci/run` has just built and names in BUILT_SITE, or a fresh
    one. Workers share the folder above their own.
    """
    if "BUILT_SITE" in os.environ:
        return Path(os.environ["BUILT_SITE"])
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder = shared / "whole-site"
    with (shared / "whole-site.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.exists():
            build(load_config(str(ROOT / "mkdocs.yml"), site_dir=str(folder)))
    return folder


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium, closed after each module: tests elsewhere start a browser of their own, and
    Playwright's synchronous interface allows one at a time.
    """
    with sync_playwright() as playwright:
        running = started(playwright)
        yield running
        running.close()
