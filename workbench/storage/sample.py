"""The sample studio: built from plain text, so that what it holds can be read and changed."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

from workbench import paths
from workbench.formula.formula import Formula
from workbench.formula.shelf import Price
from workbench.formula.weighability import Balance
from workbench.storage.files_beside import discard
from workbench.storage.formula_document import load_document, write_document
from workbench.storage.opening import create_studio
from workbench.storage.reference.shipped import Shipped
from workbench.storage.sentences import refusal
from workbench.storage.settings import StudioSettings
from workbench.storage.studio import Studio
from workbench.words.numbers import NumberStyle

STUDIO_FILE = "pebblewick.studio"
LIST_FILE = "studio.json"
DOCUMENT_ENDING = ".formula.json"


def build_sample(source: Path, folder: Path, clock: Callable[[], datetime]) -> Path:
    """Build the sample studio and one self-contained document of each formula in a folder.

    The folder is made when it is missing. Returns the path of the studio.

    Raises
    ------
    WorkbenchError
        If one of the files is there already, or the folder cannot be written; then the studio
        is not left behind half made.
    """
    plan = json.loads((source / LIST_FILE).read_text(encoding="utf-8"))
    keys: list[str] = plan["formulas"]
    _require_room(folder, keys)
    shipped = Shipped(paths.resources() / "reference")
    formulas = {key: load_document(document_path(source, key), shipped).formula for key in keys}
    path = folder / STUDIO_FILE
    written: list[Path] = []
    studio = create_studio(path, clock=clock)
    try:
        with studio:
            _fill(studio, plan, formulas, clock)
            for key, formula in formulas.items():
                written.append(document_path(folder, key))
                write_document(written[-1], formula, studio.shelf_for(formula))
    except BaseException:
        for made in written:
            made.unlink(missing_ok=True)
        discard(path)
        raise
    return path


def document_path(folder: Path, key: str) -> Path:
    """Return where the document of a formula lies in a folder."""
    return folder / f"{key}{DOCUMENT_ENDING}"


def _require_room(folder: Path, keys: list[str]) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        names = [folder / STUDIO_FILE, *(document_path(folder, key) for key in keys)]
        taken = [path for path in names if path.exists()]
    except OSError as error:
        reason = error.strerror or "unknown"
        raise refusal("write-failed", str(error), file=str(folder), reason=reason) from error
    if taken:
        raise refusal("exists", file=taken[0].name)


def _fill(
    studio: Studio,
    plan: Mapping[str, Any],
    formulas: Mapping[str, Formula],
    clock: Callable[[], datetime],
) -> None:
    settings = _settings(plan["settings"])
    studio.settings.save(settings)
    studio.settings.set_balances(
        tuple(
            Balance(item["name"], Decimal(item["readability_g"]), Decimal(item["capacity_g"]))
            for item in plan["balances"]
        )
    )
    studio.settings.set_prices(
        {
            key: Price(Decimal(per_kg), settings.currency)
            for key, per_kg in plan["prices_per_kg"].items()
        }
    )
    for key, formula in formulas.items():
        studio.formulas.create(formula.name, formula, key=key)
    for version in plan["versions"]:
        _make_version(studio, version, formulas[version["formula"]], clock)


def _settings(data: Mapping[str, Any]) -> StudioSettings:
    return StudioSettings(
        name=data["name"],
        contact=data["contact"],
        currency=data["currency"],
        markets=tuple(data["markets"]),
        paper=data["paper"],
        decimal_style=NumberStyle[data["decimal_style"].upper()],
        numbering=data["numbering"],
    )


def _make_version(
    studio: Studio, version: Mapping[str, Any], formula: Formula, clock: Callable[[], datetime]
) -> None:
    # A version freezes the stored draft: the draft takes its percents first, and the draft
    # ends as the document has it.
    key = version["formula"]
    frozen = _with_percents(formula, version["percent"])
    _, counter = studio.formulas.draft(key)
    counter = studio.formulas.save_draft(key, frozen, counter)
    studio.versions.make_version(key, version["reason"], clock(), studio.shelf_for(frozen))
    studio.formulas.save_draft(key, formula, counter)


def _with_percents(formula: Formula, percents: Mapping[str, str]) -> Formula:
    for line in tuple(formula.lines()):
        if line.ingredient in percents:
            percent = Decimal(percents[line.ingredient])
            formula = formula.with_line(replace(line, percent=percent))
    return formula
