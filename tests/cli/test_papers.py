"""Labels, cards and assessor's sheets from the command line."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from workbench import paths
from workbench.cli import main
from workbench.cli.label import asked_sheet
from workbench.documents.card_text import document_of
from workbench.errors import WorkbenchError
from workbench.storage.formula_document import load_document
from workbench.storage.reference.label_sheets import load_label_tables
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

DOCUMENT = {
    "format": "formulation-workbench/formula",
    "format_version": 1,
    "name": "Reedling toner",
    "product_type": "toner",
    "exposure": "leave-on",
    "area": "face",
    "markets": ["EU"],
    "plan": {"batch_mass": "200 g"},
    "phases": [
        {
            "name": "Water phase",
            "steps": [{"text": "Stir until clear"}],
            "lines": [
                {"ingredient": "water", "percent": "rest"},
                {"ingredient": "glycerin", "percent": "4"},
                {"ingredient": "phenoxyethanol_ehg", "percent": "0.9"},
            ],
        }
    ],
}
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def document(tmp_path: Path) -> Path:
    """Write the document and return where it is."""
    file = tmp_path / "reedling.formula.json"
    file.write_text(json.dumps(DOCUMENT), encoding="utf-8")
    return file


@pytest.fixture
def run(document: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command on the document; return its code, what it printed and its complaint."""

    def command(name: str, *options: str) -> tuple[int, str, str]:
        code = main([name, str(document), *options])
        said = capsys.readouterr()
        return code, said.out, said.err

    return command


def test_that_a_label_names_what_is_missing_and_is_written(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "l.pdf"
    code, said, _ = run("label", "--out", str(out), "--kind", "sale-eu")
    assert code == 0
    assert "Missing: Batch number." in said
    assert "At least 1.2 mm, measured on the small x" in said
    assert out.read_bytes().startswith(b"%PDF-")


def test_that_a_label_that_is_too_small_is_refused_with_ways_out(run: Run, tmp_path: Path) -> None:
    long = "Spread it on the skin with both hands and wait until nothing shines any more. " * 6
    options = ("--kind", "sale-eu", "--sheet", "38.1x21.2", "--use", long)
    code, _, complaint = run("label", "--out", str(tmp_path / "l.pdf"), *options)
    assert code == 2
    assert "does not fit on a label of 38.1 × 21.2 mm" in complaint
    assert "a larger label" in complaint
    assert not (tmp_path / "l.pdf").exists()


def test_that_a_leaflet_is_written_beside_its_label(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "l.pdf"
    assert run("label", "--out", str(out), "--kind", "gift", "--placed", "leaflet")[0] == 0
    assert (tmp_path / "l-leaflet.pdf").read_bytes().startswith(b"%PDF-")


def test_that_the_ruler_page_needs_no_label(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "r.pdf"
    assert run("label", "--out", str(out), "--ruler", "--sheet", "round 40")[0] == 0
    assert out.exists()


@pytest.mark.parametrize("form", ["pdf", "png", "md", "txt"])
def test_that_a_card_comes_with_its_document(
    run: Run, tmp_path: Path, document: Path, form: str
) -> None:
    out = tmp_path / f"card.{form}"
    assert run("card", "--out", str(out), "--grams")[0] == 0
    assert out.stat().st_size > 100
    shipped = Shipped(paths.resources() / "reference")
    beside = load_document(tmp_path / "card.formula.json", shipped)
    assert beside.formula == load_document(document, shipped).formula


def test_that_a_markdown_card_holds_its_document(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "card.md"
    run("card", "--out", str(out))
    beside = json.loads((tmp_path / "card.formula.json").read_text(encoding="utf-8"))
    assert document_of(out.read_text(encoding="utf-8")) == beside


def test_that_a_card_never_overwrites_the_document_it_was_made_from(
    run: Run, tmp_path: Path, document: Path
) -> None:
    before = document.read_bytes()
    assert run("card", "--out", str(tmp_path / "reedling.txt"))[0] == 0
    assert document.read_bytes() == before


def test_that_an_unknown_form_of_card_is_refused(run: Run, tmp_path: Path) -> None:
    code, _, complaint = run("card", "--out", str(tmp_path / "card.docx"))
    assert code == 2
    assert "card.docx" in complaint


def test_that_the_sheet_for_the_assessor_is_written(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "a.pdf"
    assert run("assessor", "--out", str(out), "--paper", "Letter")[0] == 0
    assert out.read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize(
    ("asked", "complaint"),
    [
        ("70x30", "no label sheet of the size '70x30'"),
        ("210x297,40x30,4x8,5x12,10x12", "higher together than the page"),
        ("210x297,nanx30,4x8,5x2,10x12", "no label sheet"),
        ("210x297,40x30,4.5x8,5x2,10x12", "no label sheet"),
        ("210x297,40x30,4x8,5x2,10x12,round", "as wide as it is high"),
    ],
)
def test_that_a_sheet_that_makes_no_sense_is_refused(asked: str, complaint: str) -> None:
    tables = load_label_tables(paths.resources() / "reference")
    words = load_words(paths.resources() / "words")
    with pytest.raises(WorkbenchError, match=complaint):
        asked_sheet(asked, tables, words)


def test_that_a_sheet_of_ones_own_is_taken() -> None:
    tables = load_label_tables(paths.resources() / "reference")
    words = load_words(paths.resources() / "words")
    sheet = asked_sheet("210x297,40x30,4x8,5x2,10x12", tables, words)
    assert (sheet.count, sheet.is_round) == (32, False)
