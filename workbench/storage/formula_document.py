"""Formula documents as files: read with one sentence for each fault, written whole."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.formula.document import FORMAT, FORMAT_VERSION, document_data
from workbench.formula.document_reading import DocumentFault
from workbench.formula.document_whole import Document, read_document
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.storage.formula_file import read_formula_text
from workbench.storage.reference.shipped import Shipped
from workbench.storage.sentences import refusal, sentence
from workbench.storage.text_file import write_text_file

SCHEMA_FILE = "formula-1.schema.json"
_ONE_OF = {
    "phases": "phase",
    "lines": "line",
    "steps": "step",
    "ingredients": "ingredient",
    "stocks": "stock",
}


def load_document(path: Path, shipped: Shipped) -> Document:
    """Return what a document file holds.

    Raises
    ------
    WorkbenchError
        If it cannot be read or makes no sense; the sentence says what is wrong and where.
    """
    data = read_formula_text(path)
    _require_format(data, path.name)
    _require_schema(data, path.name)
    try:
        return read_document(data, shipped.names, shipped.substances)
    except DocumentFault as fault:
        raise _told(fault.code, fault.path, path.name, **fault.values) from fault


def write_document(path: Path, formula: Formula, shelf: Shelf) -> None:
    """Write a self-contained document in place of what was there."""
    data = document_data(formula, shelf)
    write_text_file(path, json.dumps(data, ensure_ascii=False, indent=2) + "\n")


def place_in_words(path: tuple[str | int, ...]) -> str:
    """Return a place as a maker counts: phase 1, line 3, percent."""
    words: list[str] = []
    for step in path:
        if isinstance(step, int):
            if words:
                words[-1] = f"{_ONE_OF.get(words[-1], words[-1])} {step + 1}"
        else:
            words.append(step[:60])
    return ", ".join(words)


def _require_format(data: dict[str, object], file: str) -> None:
    if data.get("format") != FORMAT:
        raise refusal("document-foreign", file=file)
    version = data.get("format_version")
    if isinstance(version, int) and not isinstance(version, bool) and version > FORMAT_VERSION:
        raise refusal("document-newer", file=file, version=version)


def _require_schema(data: dict[str, object], file: str) -> None:
    from jsonschema.exceptions import relevance

    errors = sorted(_validator().iter_errors(data), key=relevance, reverse=True)
    if not errors:
        return
    error = errors[0]
    path = tuple(error.absolute_path)
    code, values = _fault_of(error)
    raise _told(code, path, file, **values)


def _fault_of(error: Any) -> tuple[str, dict[str, str | int]]:  # noqa: ANN401
    kind, want, instance = error.validator, error.validator_value, error.instance
    if kind == "required":
        missing = [name for name in want if name not in instance]
        return "field-missing", {"name": ", ".join(missing)}
    if kind == "additionalProperties":
        extra = [name for name in instance if name not in error.schema["properties"]]
        return "field-unknown", {"name": ", ".join(f"'{name[:60]}'" for name in extra[:3])}
    if kind in ("enum", "const"):
        choices = want if isinstance(want, list) else [want]
        return "not-a-choice", {"choices": ", ".join(str(choice) for choice in choices)}
    if kind == "type":
        names = want if isinstance(want, list) else [want]
        return "wrong-type", {"type": " / ".join(names)}
    if kind in ("maxLength", "maxItems", "maxProperties", "minItems", "minLength", "minProperties"):
        code = "too-much" if kind.startswith("max") else "too-little"
        return code, {"limit": int(want)}
    if kind in ("minimum", "maximum"):
        return "beyond", {"limit": str(want), "kind": kind, "text": str(instance)[:40]}
    return "field-refused", {"reason": kind}


def _told(
    code: str, path: tuple[str | int, ...], file: str, **values: Any  # noqa: ANN401
) -> WorkbenchError:
    where = place_in_words(path) or sentence("storage-document-top")
    what = sentence(f"storage-document-{code}", **values)
    return WorkbenchError(
        sentence("storage-document-fault", file=file, where=where, what=what),
        sentence("storage-document-fault-remedy"),
    )


@cache
def _validator() -> Any:  # noqa: ANN401
    from jsonschema import Draft202012Validator

    schema = json.loads((paths.resources() / "schema" / SCHEMA_FILE).read_text(encoding="utf-8"))
    return Draft202012Validator(schema)
