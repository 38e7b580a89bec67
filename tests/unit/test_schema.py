"""The JSON Schema of the pattern file, judged by jsonschema, a validator from outside.

Bad files are those of tests/errors: the schema must refuse each whose problem a schema can say.
"""

import json
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from pieceproof.methods import METHODS
from pieceproof.schema import pattern_schema

ROOT = Path(__file__).parents[2]
PATTERNS = sorted(ROOT.glob("patterns/*/pattern.yaml"))
ERRORS = ROOT / "tests" / "errors"

SEEN_BY_SCHEMA = (
    "bad-cell",
    "bad-colour",
    "bad-count.large",
    "bad-length",
    "bad-name",
    "bad-size",
    "empty-value",
    "fixed-key",
    "missing-key",
    "no-sizes",
    "reserved-name.word",
    "text-too-long",
    "too-few",
    "too-many",
    "unknown-choice",
    "unknown-key",
    "unknown-value",
    "wrong-type",
)
NOT_SEEN = ("too-many-patches", "too-many-units")

BAD = [
    path
    for path in sorted(ERRORS.glob("*.yaml"))
    if path.name.startswith(SEEN_BY_SCHEMA) and not path.name.startswith(NOT_SEEN)
]


@pytest.fixture(scope="module")
def validator() -> Draft202012Validator:
    schema = pattern_schema(METHODS)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.parent.name)
def test_the_demo_patterns_are_valid(path: Path, validator: Draft202012Validator) -> None:
    tree = yaml.safe_load(path.read_text(encoding="utf-8"))
    assert [error.message for error in validator.iter_errors(tree)] == []


@pytest.mark.parametrize("path", BAD, ids=lambda path: path.stem)
def test_bad_files_are_refused(path: Path, validator: Draft202012Validator) -> None:
    tree = yaml.safe_load(path.read_text(encoding="utf-8"))
    assert not validator.is_valid(tree)


def test_the_schema_is_plain_json_and_the_same_each_time() -> None:
    first, second = (json.dumps(pattern_schema(METHODS)) for _ in range(2))
    assert first == second


def test_every_key_is_described() -> None:
    def undescribed(schema: object) -> int:
        if isinstance(schema, list):
            return sum(undescribed(item) for item in schema)
        if not isinstance(schema, dict):
            return 0
        inner = schema.get("properties", {}).values() if "required" in schema else ()
        missing = sum(not {"description", "const", "enum"} & set(value) for value in inner if value)
        return missing + sum(undescribed(value) for value in schema.values())

    assert undescribed(pattern_schema(METHODS)) == 0
