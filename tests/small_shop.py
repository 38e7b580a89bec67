"""A small shop on disk: two patterns of its own, with facts, and a site around them.

The patterns are small so that building them is quick. One has names that would break a page, a
shell or a style sheet if they were not escaped.
"""

from __future__ import annotations

import fcntl
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from pieceproof.cli import main

PLAIN = """\
name: Eddy Runner
kind: table runner
summary: Two sizes of one block, small enough to be built in a moment.
measure: inch
seam: 1/4

fabrics:
  ground: {called: background, value: light}
  wing: {called: star points, value: dark}
  heart: {called: star centres, value: medium}
  water: {called: border, value: dark}
  edge: {called: binding, value: dark}
  back: {called: backing, value: medium}

units:
  point:
    method: stitched corners
    size: 4 x 2 1/2
    fabric: ground
    corners:
      bottom left: {fabric: wing, leg: 2 1/4}
      bottom right: {fabric: wing, leg: 2 1/4}

blocks:
  star:
    rows:
      - [ground, point, ground]
      - [point turned 3, heart, point turned 1]
      - [ground, point turned 2, ground]

setting:
  layout: straight
  rows: [[star]]
  across: 3

borders:
  - {fabric: water, width: 2, order: sides first}
binding: {fabric: edge}
backing: {fabric: back}
batting: {}

sizes:
  small: {label: Two stars, setting: {across: 2}}
  large: {label: Three stars}

cloths:
  mist: {name: Morning Mist, colour: "#eceae1"}
  slate: {name: Wet Slate, colour: "#3b5166"}
  ochre: {name: Ferry Ochre, colour: "#d09a3e"}
  brick: {name: Boathouse Brick, colour: "#a8482f"}
  rose: {name: Towpath Rose, colour: "#dd9c8c"}

colourways:
  low-water:
    name: Low Water
    parts: {ground: mist, wing: slate, heart: ochre, water: slate, edge: ochre, back: mist}
  boathouse:
    name: Boathouse
    parts: {ground: mist, wing: brick, heart: rose, water: brick, edge: brick, back: rose}

auditions:
  heart-and-border:
    name: Centres & border
    candidates: {heart: [ochre, rose], water: [slate, brick, ochre]}
    seen by: customers
"""

PROSE = """\
A runner to try things with.

## Unit: point

Make {unit point, make} of them, *all in a row*.

## Finishing (after)

Wash it once, then [look at the cutting list](#cutting) again.
"""

HOSTILE_NAME = """</title><script>alert('n')</script> "Q" & Co"""
HOSTILE_CLOTH = "'><img src=x onerror=alert(1)>"
HOSTILE_CALLED = "{{ 7*7 }} **bold** `tick` <b>"

HOSTILE = f"""\
name: |-
  {HOSTILE_NAME}
kind: <i>mat</i>
summary: |-
  ```html <u>not</u> [link](javascript:alert(2)) -->
measure: centimetre
seam: 0.75
fabrics:
  ground:
    called: |-
      {HOSTILE_CALLED}
  dark part: {{called: "</style>dark"}}
setting:
  layout: straight
  rows: [[four]]
units:
  half:
    method: half-square triangles
    size: 6
    top left: ground
    bottom right: dark part
blocks:
  four:
    rows: [[half, half turned 1], [half turned 3, half turned 2]]
cloths:
  a:
    name: |-
      {HOSTILE_CLOTH}
    colour: "#ffeedd"
  b: {{name: '" onmouseover="alert(3)', colour: "#332211"}}
colourways:
  one: {{name: "<svg onload=alert(4)>", parts: {{ground: a, dark part: b}}}}
"""

STOCK = """\
sold by: yard
currency: fares
includes: [binding]
spares: {for every: 25, up to inches: 3}
pile: 50
cloths:
  - {name: Morning Mist, price: 9.40, bolts: [3, 5 1/2]}
  - {name: Wet Slate, price: 10.20, bolts: [2 1/4, 4]}
  - {name: Ferry Ochre, price: 9.80, bolts: [1 1/2]}
  - {name: Lamp Gold, colour: "#c8862a", price: 77.70}
pattern prices: {eddy-runner: 3.20}
packing: [{name: paper bag, each: 0.45}]
minutes: {once: 75, each pass: 1/3, each kit: 6}
wage: 21.50
overhead: 18
margin: 30
runs:
  - {pattern: eddy-runner, size: small, colourway: low-water, kits: 1}
  - {pattern: eddy-runner, size: large, colourway: low-water, kits: 12}
  - pattern: eddy-runner
    size: large
    colourway: low-water
    kits: 12
    instead: [{of: Ferry Ochre, use: Lamp Gold}]
  - {pattern: odd-names, size: one size, colourway: one, kits: 3, usable width: 110}
"""
"""What the shop states about its kits. The one price that its cloths do not share is 77.70."""

SITE = """\
site_name: A small shop
site_url: https://shop.example/
use_directory_urls: {directory_urls}
theme: {{name: material, font: false}}
extra: {{generator: false}}
nav: [Front door: index.md, Patterns: patterns/index.md]
plugins:
  - search
  - pieceproof: {{shop: !ENV [PIECEPROOF_SHOP, false]}}
markdown_extensions: [attr_list]
validation: {{anchors: warn, absolute_links: warn, unrecognized_links: warn}}
"""


def open_shop(folder: Path, directory_urls: bool = False) -> Path:
    """Write the site and its patterns; returns the folder."""
    words = SITE.format(directory_urls=str(directory_urls).lower())
    (folder / "mkdocs.yml").write_text(words, "utf-8")
    (folder / "docs").mkdir()
    (folder / "docs" / "index.md").write_text("# Welcome\n\n[Patterns](patterns/index.md)\n")
    for slug, text in (("eddy-runner", PLAIN), ("odd-names", HOSTILE)):
        (folder / "patterns" / slug).mkdir(parents=True)
        (folder / "patterns" / slug / "pattern.yaml").write_text(text, "utf-8")
    (folder / "patterns" / "eddy-runner" / "prose.md").write_text(PROSE, "utf-8")
    (folder / "patterns" / "kits.yaml").write_text(STOCK, "utf-8")
    assert main(["--patterns", str(folder / "patterns"), "facts"]) == 0
    return folder


def build(folder: Path, site: Path, **variables: str) -> subprocess.CompletedProcess[str]:
    """Build the site as its owner would, with these variables in the environment."""
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "-q", "-d", str(site)],
        cwd=folder,
        env={
            **os.environ,
            "SOURCE_DATE_EPOCH": "1700000000",
            "NO_MKDOCS_2_WARNING": "1",
            **variables,
        },
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


def built_shop(factory: pytest.TempPathFactory, **variables: str) -> Path:
    """The shop's folder with its site built into ``site``, once for all workers: read it only."""
    base = factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder = shared / "-".join(["small-shop", *sorted(variables)])
    with folder.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (folder / "site" / "index.html").exists():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
            done = build(open_shop(folder), folder / "site", **variables)
            assert done.returncode == 0, done.stderr
    return folder
