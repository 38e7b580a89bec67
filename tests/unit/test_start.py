"""The way in: README's commands exist, and the start script needs nothing but Python."""

from __future__ import annotations

import ast
import re
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
START = ROOT / "plugin" / "start.py"


def test_start_script_imports_only_the_standard_library() -> None:
    tree = ast.parse(START.read_text())
    imported = {
        name.split(".")[0]
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }
    assert imported <= sys.stdlib_module_names


def test_readme_names_commands_that_exist() -> None:
    named = re.findall(r"python3 plugin/start\.py (\w+)", (ROOT / "README.md").read_text())
    known = re.findall(r"^    python3 plugin/start\.py (\w+)", START.read_text(), re.MULTILINE)
    assert set(named) == set(known) == {"site", "build", "booklet", "test"}


def test_start_script_leaves_the_choice_of_package_source_to_the_user() -> None:
    assert not re.search(r"https?:|index-url|find-links|trusted-host", START.read_text())
