"""Start here: one command from a fresh clone to the finished site, one to green tests.

    python3 plugin/start.py site     build the site, serve it, print its address
    python3 plugin/start.py build    only build it, into site/
    python3 plugin/start.py booklet  make booklets as PDF, into build/booklets/
    python3 plugin/start.py test     run every check

Further words go to mkdocs (site, build), pieceproof (booklet) or pytest (test). With BOOKLETS=true
in the environment the site offers booklets as well, which takes minutes the first time. Standard
library only: it makes the environment that everything else runs in. It never says where packages
come from; pip's and apt's own settings do.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import socket
import subprocess
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple, NoReturn

ROOT = Path(__file__).resolve().parent.parent
PLUGIN = ROOT / "plugin"
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
STAMP = VENV / "installed"
OLDEST = (3, 11)
PORTS = range(8000, 8020)


class Need(NamedTuple):
    """Something that pip cannot install. ``probe`` is Python that fails where it is missing."""

    purpose: str
    probe: str
    debian: str
    fedora: str
    macos: str


ENVIRONMENT = (
    Need(
        "a Python environment of its own",
        "import ensurepip, venv",
        "python3-venv",
        "sudo dnf install python3",
        "brew install python",
    ),
)
DRAWING = (
    Need(
        "pictures (PNG)",
        "import cairosvg",
        "libcairo2",
        "sudo dnf install cairo",
        "brew install cairo",
    ),
)
PAPER = (
    Need(
        "booklets (PDF)",
        "import weasyprint",
        "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
        "sudo dnf install pango",
        "brew install pango",
    ),
)
BROWSER = (
    Need(
        "tests in a browser",
        "import shutil, sys; sys.exit(not (shutil.which('chromium') or"
        " shutil.which('chromium-browser')))",
        "chromium",
        "sudo dnf install chromium",
        "brew install --cask chromium",
    ),
)


class Task(NamedTuple):
    """What a command installs: extras of the package, needs and mere wishes of the system."""

    extras: frozenset[str]
    needs: tuple[Need, ...]
    wishes: tuple[Need, ...] = ()


WITH_BOOKLETS = os.environ.get("BOOKLETS", "") == "true"
SITE = Task(frozenset({"pdf"}), DRAWING, PAPER) if WITH_BOOKLETS else Task(frozenset(), DRAWING)
TASKS: Mapping[str, Task] = {
    "site": SITE,
    "build": SITE,
    "booklet": Task(frozenset({"pdf"}), PAPER),
    "test": Task(frozenset({"pdf", "test"}), DRAWING + PAPER + BROWSER),
}


def main(words: list[str]) -> int:
    """Prepare, then do what the first word says. Returns the exit code."""
    if sys.version_info < OLDEST:
        stop(f"This is Python {sys.version.split()[0]}; 3.11 or newer is needed.")
    if not words or words[0] not in TASKS:
        print(__doc__)
        return 0 if words in ([], ["-h"], ["--help"]) else 2
    command, further = words[0], words[1:]
    task = TASKS[command]
    provide(ENVIRONMENT, sys.executable)
    prepare_environment(task.extras)
    provide(task.needs, str(PYTHON))
    if missing := missing_after_install(task.wishes, str(PYTHON)):
        say("\n".join(["Going on without", *map(advice, missing)]))
    return {"site": serve, "build": build, "booklet": booklet, "test": test}[command](further)


def prepare_environment(extras: frozenset[str]) -> None:
    """Make .venv hold the package, editable, with these extras; anew if pyproject.toml changed."""
    recipe = recipe_mark()
    mark, *installed = STAMP.read_text().split() if STAMP.exists() else [""]
    current = mark == recipe and PYTHON.exists()
    if current and extras <= set(installed):
        return
    if not current:
        say("Making a Python environment in .venv")
        run([sys.executable, "-m", "venv", "--clear", str(VENV)])
        installed = []
    wanted = sorted(extras | set(installed))
    say("Installing the package and what it needs (a minute or two the first time)")
    package = str(PLUGIN) + (f"[{','.join(wanted)}]" if wanted else "")
    run([str(PYTHON), "-m", "pip", "install", "--quiet", "--editable", package])
    STAMP.write_text("\n".join([recipe, *wanted]) + "\n")


def recipe_mark() -> str:
    """Changes with whatever makes an existing .venv stale: recipe, place, Python."""
    recipe = (PLUGIN / "pyproject.toml").read_bytes()
    return hashlib.sha256(recipe + f"{ROOT} {sys.version}".encode()).hexdigest()


def provide(needs: Iterable[Need], python: str) -> None:
    """Install the system's packages that are missing, or say which and stop."""
    if missing := missing_after_install(needs, python):
        stop("\n\n".join(["Missing on this machine:", *map(advice, missing), "Then start again."]))


def missing_after_install(needs: Iterable[Need], python: str) -> list[Need]:
    """Install the system's packages that are missing, where that can be done; what still is."""
    missing = [need for need in needs if not present(need, python)]
    if missing and shutil.which("apt-get") and os.geteuid() == 0:
        packages = [name for need in missing for name in need.debian.split()]
        say(f"Installing {', '.join(packages)} with apt-get")
        apt_get("update")
        apt_get("install", "--yes", "--no-install-recommends", *packages)
        missing = [need for need in missing if not present(need, python)]
    return missing


def present(need: Need, python: str) -> bool:
    """Whether the need's probe succeeds in that Python."""
    probe = [python, "-c", need.probe]
    return subprocess.run(probe, check=False, capture_output=True).returncode == 0


def advice(need: Need) -> str:
    """How to install one need, by system."""
    return (
        f"  for {need.purpose}\n"
        f"    Debian, Ubuntu   sudo apt-get install {need.debian}\n"
        f"    Fedora           {need.fedora}\n"
        f"    macOS            {need.macos}"
    )


def apt_get(*words: str) -> None:
    """Run apt-get without questions; its output only where it fails."""
    run(["apt-get", "-qq", *words], {"DEBIAN_FRONTEND": "noninteractive"})


def serve(further: list[str]) -> int:
    """Build, then serve until Ctrl-C, building again at every change."""
    say("Building and serving the site; leave with Ctrl-C")
    command = mkdocs_command(["serve", "--dev-addr", f"127.0.0.1:{free_port()}", *further])
    with contextlib.suppress(KeyboardInterrupt):
        return subprocess.call(command, env=environment())
    return 0


def build(further: list[str]) -> int:
    """Build into site/."""
    say("Building the site into site/")
    code = subprocess.call(mkdocs_command(["build", *further]), env=environment())
    if code == 0:
        say("Done: open site/index.html in a browser")
    return code


def booklet(further: list[str]) -> int:
    """Make booklets."""
    command = [str(PYTHON), "-m", "pieceproof.cli", "--patterns", str(ROOT / "patterns"), "booklet"]
    return subprocess.call([*command, *further], cwd=ROOT, env=environment())


def test(further: list[str]) -> int:
    """Run every check, stop at none, and fail if one failed. pytest comes last."""
    tool = [str(PYTHON), "-m"]
    sources = ["src", "start.py", "../tests"]
    checks = {
        "Lint": [*tool, "ruff", "check", *sources],
        "Format": [*tool, "ruff", "format", "--check", *sources],
        "Types": [*tool, "mypy", "src/pieceproof", "start.py"],
    }
    failed = []
    for name, check in checks.items():
        say(name)
        if subprocess.call(check, cwd=PLUGIN):
            failed.append(name)
    if failed:
        say(f"Failed: {', '.join(failed)} (see above)")
    say("Tests")
    named_tests = any(Path(word.split("::")[0]).exists() for word in further)
    where = [] if named_tests else [str(ROOT / "tests")]
    pytest = [*tool, "pytest", f"--rootdir={ROOT}", f"--config-file={PLUGIN / 'pyproject.toml'}"]
    tests = subprocess.call([*pytest, *where, *further], env=environment())
    return tests or int(bool(failed))


def mkdocs_command(words: list[str]) -> list[str]:
    """An mkdocs command line on this repository's site."""
    command, *further = words
    config = str(ROOT / "mkdocs.yml")
    return [str(PYTHON), "-m", "mkdocs", command, "--config-file", config, *further]


def environment() -> dict[str, str]:
    """The user's environment, without a notice that the theme prints about another tool's plans."""
    return {**os.environ, "NO_MKDOCS_2_WARNING": "1"}


def free_port() -> int:
    """The first port of PORTS that nobody on this machine listens at."""
    for port in PORTS:
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) != 0:
                return port
    stop(f"Ports {PORTS.start} to {PORTS.stop - 1} are all in use; close one of their programs.")


def run(command: list[str], extra: Mapping[str, str] | None = None) -> None:
    """Run a command that must succeed; its own words explain a failure."""
    code = subprocess.call(command, env={**os.environ, **(extra or {})})
    if code:
        stop(f"This failed (exit code {code}); its own words are above:\n  {' '.join(command)}")


def say(words: str) -> None:
    """One line of progress."""
    print(f"» {words}", flush=True)


def stop(words: str) -> NoReturn:
    """End with an explanation and exit code 1."""
    print(words, file=sys.stderr)
    raise SystemExit(1)


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
