"""Formula documents as files: read with one sentence for each fault, written whole."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.formula.document import FORMAT, FORMAT_VERSION, document_data
from workbench.formula.document_values import DocumentFault
from workbench.formula.document_whole import Document, read_document
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.storage.formula_file import read_formula_text
from workbench.storage.reference.shipped import Shipped
from workbench.storage.schema_faults import fault_of
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
        raise refusal("document-newer", file=file, version=str(version))


def _require_schema(data: dict[str, object], file: str) -> None:
    from jsonschema.exceptions import relevance

    errors = sorted(_validator().iter_errors(data), key=relevance, reverse=True)
    if not errors:
        return
    error = errors[0]
    path = tuple(error.absolute_path)
    code, values = fault_of(error)
    raise _told(code, path, file, **values)


def _told(
    code: str,
    path: tuple[str | int, ...],
    file: str,
    **values: Any,  # noqa: ANN401
) -> WorkbenchError:
    where = _printable(place_in_words(path)) or sentence("storage-fault-top")
    shown = {
        name: _printable(value) if isinstance(value, str) else value
        for name, value in values.items()
    }
    what = sentence(f"storage-fault-{code}", **shown)
    return WorkbenchError(
        sentence("storage-fault", file=file, where=where, what=what),
        sentence("storage-fault-remedy"),
    )


def _printable(text: str) -> str:
    # What a stranger's document holds may not steer the terminal it is told on.
    return "".join(char for char in text if char.isprintable())


@cache
def _validator() -> Any:  # noqa: ANN401
    from jsonschema import Draft202012Validator

    schema = json.loads((paths.resources() / "schema" / SCHEMA_FILE).read_text(encoding="utf-8"))
    return Draft202012Validator(schema)
