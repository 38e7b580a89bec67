"""The plugin's settings in ``mkdocs.yml``."""

from __future__ import annotations

from mkdocs.config import config_options as opt
from mkdocs.config.base import Config


class PieceproofOptions(Config):  # type: ignore[no-untyped-call]
    """Where the patterns are, and whether the site offers booklets as PDF."""

    patterns_dir = opt.Dir(exists=True, default="patterns")
    booklets = opt.Type(bool, default=False)
