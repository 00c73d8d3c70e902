from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.storage.conftest import REFERENCE, FakeClock
from workbench import cli, paths
from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.finding import Severity
from workbench.errors import WorkbenchError
from workbench.formula.document_whole import Document
from workbench.formula.scope import scope_of
from workbench.formula.shelf import Shelf
from workbench.formula.versions import same_design
from workbench.storage import sample
from workbench.storage.formula_document import load_document
from workbench.storage.opening import open_studio
from workbench.storage.reference.shipped import Shipped
from workbench.storage.sample import STUDIO_FILE, build_sample, document_path
from workbench.storage.studio import Studio

SOURCE = paths.sample_db()
PLAN = json.loads((SOURCE / "studio.json").read_text(encoding="utf-8"))
KEYS: list[str] = PLAN["formulas"]
DRAFT = "gannet-point-toner"
SOUND = [key for key in KEYS if key != DRAFT]
STOCKS = {"xanthan-stock-1", "citric-acid-10"}
RULES_OF = date(2026, 11, 25)
MOST_FINDINGS = 6


@pytest.fixture(scope="module")
def shipped() -> Shipped:
    return Shipped(REFERENCE)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a sample that was built once; only read it."""
    folder = tmp_path_factory.mktemp("sample")
    build_sample(SOURCE, folder, FakeClock())
    return folder


@pytest.fixture
def studio(built: Path) -> Iterator[Studio]:
    with open_studio(built / STUDIO_FILE, read_only=True) as opened:
        yield opened


def read(folder: Path, key: str, shipped: Shipped) -> tuple[Document, Shelf]:
    document = load_document(document_path(folder, key), shipped)
    return document, document.shelf(shipped.shelf)


def assessed(folder: Path, key: str, shipped: Shipped) -> Assessment:
    document, shelf = read(folder, key, shipped)
    formula = document.formula
    return assess(formula, shelf, scope_of(formula, RULES_OF), shipped.rules)


def test_that_every_source_is_in_the_list_and_every_one_listed_is_there():
    assert sorted(path.name for path in SOURCE.glob("*.formula.json")) == sorted(
        document_path(SOURCE, key).name for key in KEYS
    )


@pytest.mark.parametrize("key", KEYS)
def test_that_each_sample_totals_one_hundred(key, built, shipped):
    assessment = assessed(built, key, shipped)
    assert assessment.totals.percent == Decimal(100)
    assert assessment.totals.rest is None or assessment.totals.rest > 0


@pytest.mark.parametrize("key", KEYS)
def test_that_each_sample_knows_all_it_is_made_of(key, built, shipped):
    document, shelf = read(built, key, shipped)
    assert [
        line.ingredient for line in document.formula.lines() if not shelf.knows(line.ingredient)
    ] == []
    for stock in document.stocks.values():
        assert all(shelf.knows(line.ingredient) for line in stock.lines())


@pytest.mark.parametrize("key", SOUND)
def test_that_a_finished_sample_gives_no_stop_and_few_findings(key, built, shipped):
    assessment = assessed(built, key, shipped)
    assert [found.code for found in assessment.findings if found.severity is Severity.STOP] == []
    assert len(assessment.findings) <= MOST_FINDINGS


def test_that_the_sketch_shows_what_is_wrong_with_it(built, shipped):
    # Benzyl alcohol: 1.4 % of a blend with 87 % is 1.218 %; Reg. (EC) 1223/2009 Annex V entry 34
    # allows 1.0 % when it is there as a preservative.
    findings = assessed(built, DRAFT, shipped).findings
    codes = {found.code for found in findings}
    assert {"use-over", "preservative-weak"} <= codes
    stops = [found for found in findings if found.severity is Severity.STOP]
    assert [found.value for found in stops] == [Decimal("1.218")]
    assert [found.limit for found in stops] == [Decimal(1)]
    assert len(findings) <= MOST_FINDINGS


@pytest.mark.parametrize("key", SOUND)
def test_that_the_target_ph_of_a_finished_sample_suits_every_line(key, built, shipped):
    document, shelf = read(built, key, shipped)
    target = document.formula.target_ph
    if target is None:
        assert document.formula.product_type in ("balm", "stock")
        return
    for line in document.formula.lines():
        item = shelf.ingredients.get(line.ingredient)
        if item is None or line.to_ph or line.is_rest:
            continue
        assert item.ph_min is None or item.ph_min <= target[0], line.ingredient
        assert item.ph_max is None or item.ph_max >= target[1], line.ingredient


@pytest.mark.parametrize("key", KEYS)
def test_that_nothing_is_added_hotter_than_it_bears(key, built, shipped):
    document, shelf = read(built, key, shipped)
    for phase in document.formula.phases:
        hottest = max(
            (step.max_add_c or step.target_c or Decimal(25) for step in phase.steps),
            default=Decimal(25),
        )
        for line in phase.lines:
            item = shelf.ingredients.get(line.ingredient)
            limit = item.max_process_temp_c if item else None
            assert limit is None or hottest <= limit, line.ingredient


@pytest.mark.parametrize("key", KEYS)
def test_that_a_document_reads_back_as_its_source_and_as_the_studio_has_it(
    key, built, shipped, studio
):
    source = load_document(document_path(SOURCE, key), shipped).formula
    written = load_document(document_path(built, key), shipped).formula
    stored, _ = studio.formulas.draft(key)
    assert same_design(source, written)
    assert same_design(source, stored)


@pytest.mark.parametrize("key", KEYS)
def test_that_a_document_carries_the_stocks_it_uses(key, built, shipped):
    document, _ = read(built, key, shipped)
    used = {line.ingredient for line in document.formula.lines()} & STOCKS
    assert set(document.stocks) == used


@pytest.mark.parametrize("key", sorted(STOCKS))
def test_that_a_stock_is_not_judged_as_a_finished_product(key, built, shipped):
    # Use levels are of finished products: 10 % citric acid is no excess in an adjuster.
    assert assessed(built, key, shipped).findings == ()


def test_that_the_gel_is_the_worked_case_with_the_gum_stock(built, shipped):
    # Worked by hand: 24 x 30 ml with 2 retains make 825 g; the stock carries 0.35 % of the blend.
    formula = load_document(document_path(built, "quillmoss-niacin-gel"), shipped).formula
    percents = {line.ingredient: line.percent for line in formula.lines()}
    assert percents["xanthan-stock-1"] == Decimal("35.00")
    assert percents["phenoxyethanol_ehg"] == Decimal("0.65")
    assessment = assessed(built, "quillmoss-niacin-gel", shipped)
    rest = formula.rest_line
    assert rest is not None
    grams = {line.ingredient: line.column_g for line in assessment.lines}
    assert grams["water"] == Decimal("445.64")
    assert grams["xanthan-stock-1"] == Decimal("288.75")
    assert sum(grams.values()) == Decimal(825)


def test_that_the_hand_cream_foots_to_its_batch(built, shipped):
    # Worked by hand: water takes the 0.15 % the lines lack and the rounding of the column.
    assessment = assessed(built, "hushlark-hand-cream", shipped)
    column = (
        "491.67",
        "35.50",
        "1.78",
        "1.42",
        "71.00",
        "42.60",
        "28.40",
        "17.75",
        "1.42",
        "7.10",
        "6.39",
        "2.84",
        "2.13",
    )
    assert tuple(line.column_g for line in assessment.lines) == tuple(map(Decimal, column))


def test_that_the_studio_holds_its_settings_balances_and_a_price_for_all_it_uses(studio):
    settings = studio.settings.load()
    assert (settings.name, settings.currency) == ("Pebblewick", "EUR")
    assert settings.markets == ("EU", "UK")
    assert [item.readability for item in studio.settings.balances()] == [
        Decimal("0.01"),
        Decimal("0.1"),
    ]
    used = {line.ingredient for key in KEYS for line in studio.formulas.draft(key)[0].lines()}
    assert used - STOCKS == set(studio.settings.prices())


def test_that_the_lotion_has_two_versions_that_differ(studio):
    one, two = (studio.versions.get("harbour-fog-lotion", number) for number in (1, 2))
    assert not same_design(one.formula, two.formula)
    assert same_design(two.formula, studio.formulas.draft("harbour-fog-lotion")[0])
    assert one.reason != two.reason


def test_that_a_second_sample_in_a_folder_is_refused_and_changes_nothing(tmp_path, capsys):
    folder = tmp_path / "new" / "folder"
    assert cli.main(["sample", str(folder)]) == 0
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    capsys.readouterr()
    assert cli.main(["sample", str(folder)]) == 2
    told = capsys.readouterr().err
    assert STUDIO_FILE in told
    assert told.count("\n") == 1
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_that_a_document_of_the_makers_is_not_written_over(tmp_path):
    own = document_path(tmp_path, "lantern-balm")
    own.write_text("mine", encoding="utf-8")
    with pytest.raises(WorkbenchError, match=own.name):
        build_sample(SOURCE, tmp_path, FakeClock())
    assert [path.name for path in tmp_path.iterdir()] == [own.name]
    assert own.read_text(encoding="utf-8") == "mine"


def test_that_nothing_is_left_behind_when_building_fails(tmp_path, monkeypatch):
    def full(path: Path, *_: object) -> None:
        raise WorkbenchError(f"'{path.name}' does not fit.")

    monkeypatch.setattr(sample, "write_document", full)
    with pytest.raises(WorkbenchError, match="does not fit"):
        build_sample(SOURCE, tmp_path, FakeClock())
    assert list(tmp_path.iterdir()) == []
