"""The JSON Schema of the source, for an editor that completes and checks while its user types."""

from __future__ import annotations

from typing import Any

from booklet.craft.load import operations
from booklet.model.source import FILM, PATTERN, SECTION
from booklet.model.work import operation_schema


def source_schema() -> dict[str, Any]:
    """One schema for the three kinds of file: pattern.yaml, a section of steps, film.yaml."""
    section = SECTION.schema()
    steps = section["properties"]["steps"]["items"]["properties"]
    steps["work"]["items"] = {"anyOf": [{"$ref": f"#/$defs/{name}"} for name in operations()]}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A sewing pattern's source",
        "anyOf": [PATTERN.schema(), section, FILM.schema()],
        "$defs": {name: operation_schema(operation) for name, operation in operations().items()},
    }
