"""The rules of the house: one direction of imports, I/O at the ends, two separate proofs."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugin" / "src" / "pieceproof"
MODULES = {
    ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix(".__init__"): path
    for path in sorted(PACKAGE.rglob("*.py"))
}
SHELL = {"plugin", "options", "cli", "folders", "revisions", "pressroom"}
BENCH_MAY_USE = {"lengths", "shapes", "steps", "published"}
DISK = {"read_text", "read_bytes", "write_text", "write_bytes", "mkdir", "unlink"}


def tree(module: str) -> ast.Module:
    return ast.parse(MODULES[module].read_text("utf-8"))


def imports(module: str) -> set[str]:
    """Modules of the package that a module imports, by dotted name below the package."""
    found = set()
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("pieceproof"):
            base = (node.module or "").removeprefix("pieceproof").lstrip(".")
            for alias in node.names:
                whole = f"{base}.{alias.name}".lstrip(".")
                found.add(whole if whole in MODULES else base)
    return found - {""}


def outside(module: str) -> set[str]:
    found = set()
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            found.add((node.module or "").split(".")[0])
    return found


def test_imports_have_no_cycle() -> None:
    graph = {module: imports(module) - {module} for module in MODULES}
    done: set[str] = set()
    while len(done) < len(graph):
        ready = {m for m in graph if m not in done and graph[m] <= done}
        assert ready, f"a cycle among {sorted(set(graph) - done)}"
        done |= ready


@pytest.mark.parametrize("module", [m for m in MODULES if m.split(".")[0] == "bench"])
def test_the_bench_shares_nothing_with_the_drawing_down_side(module: str) -> None:
    shared = {used for used in imports(module) if used.split(".")[0] != "bench"}
    assert shared <= BENCH_MAY_USE


@pytest.mark.parametrize("module", sorted(set(MODULES) - SHELL))
def test_only_the_shell_knows_mkdocs(module: str) -> None:
    assert "mkdocs" not in outside(module)


@pytest.mark.parametrize("module", sorted(set(MODULES) - SHELL))
def test_only_the_shell_touches_the_disk(module: str) -> None:
    calls = {
        node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        for node in ast.walk(tree(module))
        if isinstance(node, ast.Call)
    }
    assert not calls & DISK
    assert not any(
        isinstance(node, ast.Name) and node.id == "open" for node in ast.walk(tree(module))
    )
    assert not outside(module) & {"subprocess", "socket", "tempfile", "shutil", "time"}


def test_no_method_is_named_outside_its_module() -> None:
    """A method's module appears only in the tuple of methods and in other methods."""
    methods = {m for m in MODULES if m.startswith("methods.") and "METHOD =" in _text(m)}
    assert methods
    for module in MODULES:
        if not module.startswith("methods"):
            assert not imports(module) & methods, module


def test_the_code_map_is_current() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    top = {module.split(".")[0] for module in MODULES if module and module != "__init__"}
    missing = [name for name in sorted(top) if f"`{name}`" not in guide]
    assert not missing, f"not in the code map of DEVELOPERS.md: {missing}"


def _text(module: str) -> str:
    return MODULES[module].read_text("utf-8")
