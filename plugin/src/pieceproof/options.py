"""The plugin's settings in ``mkdocs.yml``."""

from __future__ import annotations

from mkdocs.config import config_options as opt
from mkdocs.config.base import Config


class PieceproofOptions(Config):  # type: ignore[no-untyped-call]
    """Where the patterns are, and from where on the site they are shown."""

    patterns_dir = opt.Dir(exists=True, default="patterns")
