"""The plugin's settings in ``mkdocs.yml``."""

from __future__ import annotations

from mkdocs.config import config_options as opt
from mkdocs.config.base import Config


class PieceproofOptions(Config):  # type: ignore[no-untyped-call]
    """Where the patterns are; whether the shop's own pages and booklets are in the site."""

    patterns_dir = opt.Dir(exists=True, default="patterns")
    shop = opt.Type(bool, default=False)
    booklets = opt.Type(bool, default=False)
