"""The MkDocs plugin: reads the patterns folder and adds pages and files to the site.

On a build, problems in any pattern stop it with all of them in one message. While serving they are
logged, and a pattern with problems keeps the page it had before.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import Any, Literal

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page

from pieceproof.booklet.editions import ON_SITE, Paper
from pieceproof.booklet.press import copies_of, orders_of
from pieceproof.folders import read_beside, read_folders
from pieceproof.kits.book import BOOK_FILE
from pieceproof.options import PieceproofOptions
from pieceproof.pages.page import with_fragments
from pieceproof.pages.proof import INDEX as PROOF_INDEX
from pieceproof.pages.proof import TITLE as PROOF_TITLE
from pieceproof.pages.proof import proof_pages
from pieceproof.pages.shop import CLOSED, INDEX, TITLE, Shop, publish_shop
from pieceproof.pages.site import CATALOGUE, NOTHING, Site, publish_site
from pieceproof.pressroom import CACHE, kept_booklets, make_booklets, progress
from pieceproof.problems import show_problem
from pieceproof.review.releases import show_release_problems
from pieceproof.shelf import Shelved, compile_folders, show_fact_problems, show_notes, show_problems
from pieceproof.writing.handbook import FRONT, IN_NAVIGATION, handbook_pages

STATIC = Path(__file__).parent / "static"
STYLES = "assets/pieceproof/pieceproof.css"
SCRIPTS = (
    "assets/pieceproof/pieceproof.js",
    "assets/pieceproof/catalogue.js",
    "assets/pieceproof/seam-check.js",
)
KIT_STYLES = "assets/pieceproof/kits.css"
FONTS = "assets/pieceproof/fonts"

log = get_plugin_logger("pieceproof")


class PieceproofPlugin(BasePlugin[PieceproofOptions]):  # type: ignore[no-untyped-call]
    """Keeps what it made of each pattern from one build to the next."""

    def __init__(self) -> None:
        self.serving = False
        self.shelf: Mapping[str, Shelved] = {}
        self.site: Site = NOTHING
        self.shop: Shop = CLOSED

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:  # noqa: ARG002
        """Note what is run. That this hook exists makes MkDocs keep the object while serving."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Ask for the scripts, the styles and the Markdown extension that the pages use."""
        config.extra_javascript.extend(SCRIPTS)
        config.extra_css.insert(0, STYLES)
        if self.config.shop:
            config.extra_css.append(KIT_STYLES)
            if config.nav is not None:
                config.nav = [*config.nav, {TITLE: INDEX}, {PROOF_TITLE: PROOF_INDEX}]
        if "attr_list" not in config.markdown_extensions:
            config.markdown_extensions.append("attr_list")
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Read the patterns and add what is made of them."""
        folders, outside = read_folders(Path(self.config.patterns_dir))
        self.shelf = compile_folders(folders, self.shelf)
        self._report([*(show_problem(p, "") for p in outside), *show_problems(self.shelf.values())])
        self._report_facts([*show_fact_problems(self.shelf.values())])
        self._report_releases([*show_release_problems(self.shelf.values())])
        for note in show_notes(self.shelf.values()) if self.serving else ():
            log.info(note)
        page_name = "" if config.use_directory_urls else "index.html"
        booklets = self._booklets(config.site_name) if self.config.booklets else {}
        self.site = publish_site(self.shelf, self.site, page_name, booklets)
        for notice in self.site.notices:
            log.info(notice)
        if self.config.shop:
            self._open_shop(page_name)
            proofs = proof_pages(self.shelf, page_name)
            self.site = replace(self.site, pages={**self.site.pages, **proofs})
        if files.get_file_from_path(FRONT) is not None:
            self.site = replace(self.site, pages={**self.site.pages, **handbook_pages()})
        for file in _generated(self.site, config):
            files.append(file)
        return files

    def on_page_content(self, html: str, *, page: Page, **_: Any) -> str:
        """Put the ready-made HTML of a generated page in its places."""
        made = self.site.pages.get(page.file.src_uri)
        return html if made is None else with_fragments(html, made.fragments)

    def on_serve(self, server: LiveReloadServer, **_: Any) -> LiveReloadServer:
        """Build again whenever a pattern changes."""
        server.watch(self.config.patterns_dir)
        return server

    def _open_shop(self, page_name: str) -> None:
        """Add the shop's own pages, which no public build has."""
        root = Path(self.config.patterns_dir)
        stock, outside = read_beside(root, BOOK_FILE)
        file = f"{root.name}/{BOOK_FILE}"
        self.shop, texts = publish_shop(self.shelf, file, stock, self.shop, page_name)
        self._report([*(show_problem(p, "") for p in outside), *texts])
        styles = {KIT_STYLES: (STATIC / PurePosixPath(KIT_STYLES).name).read_bytes()}
        pages = {**self.site.pages, **self.shop.pages}
        files = {**self.site.files, **self.shop.files, **styles}
        self.site = replace(self.site, pages=pages, files=files)

    def _booklets(self, shop: str) -> Mapping[str, bytes]:
        """All booklets on a build; while serving, after the first time, only those ready made."""
        orders = orders_of(self.shelf, copies_of(ON_SITE, list(Paper)), shop)
        if self.serving and self.site.published:
            return kept_booklets(orders, CACHE)[0]
        files, problems = make_booklets(orders, CACHE, progress)
        for problem in problems:
            log.info(problem)
        return files

    def _report(self, problems: list[str]) -> None:
        if problems and not self.serving:
            raise PluginError("\n\n".join(["The patterns have problems.", *problems]))
        for problem in problems:
            log.error(problem)

    def _report_facts(self, problems: list[str]) -> None:
        if problems and not self.serving:
            raise PluginError("\n\n".join(["The facts files are not up to date.", *problems]))
        if problems:
            log.warning("facts files are not up to date; `pieceproof facts` writes them")

    def _report_releases(self, problems: list[str]) -> None:
        if problems and not self.serving:
            raise PluginError("\n\n".join(["What customers hold has changed.", *problems]))
        for problem in problems:
            log.warning(problem)


def _generated(site: Site, config: MkDocsConfig) -> Iterator[File]:
    """Pages stay out of the navigation, all but those that `nav` may name."""
    in_nav = (CATALOGUE, INDEX, PROOF_INDEX, *IN_NAVIGATION)
    for uri, page in site.pages.items():
        level = InclusionLevel.UNDEFINED if uri in in_nav else InclusionLevel.NOT_IN_NAV
        yield File.generated(config, uri, content=page.markdown, inclusion=level)
    for uri, content in site.files.items():
        yield File.generated(config, uri, content=content)
    for uri in (STYLES, *SCRIPTS):
        content = (STATIC / PurePosixPath(uri).name).read_bytes()
        yield File.generated(config, uri, content=content)
    for path in sorted((STATIC / "fonts").iterdir()):
        yield File.generated(config, f"{FONTS}/{path.name}", content=path.read_bytes())
