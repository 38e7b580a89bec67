"""The bench watched at work: the snapshots are the cloth that is proved, not another telling."""

from __future__ import annotations

from fractions import Fraction

import pytest
from bench_samples import SAMPLES
from examples import place_mat, publish_one, quilt, runner

from pieceproof.bench.table import covered
from pieceproof.bench.watch import Lying, MarkKind, Moment, Snapshot, sewn_makes, watch
from pieceproof.model import Design
from pieceproof.published import Make, Publication
from pieceproof.steps import Step, Yield
