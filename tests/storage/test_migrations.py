from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from decimal import Decimal
from pathlib import Path

import pytest
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from workbench.storage.check import check_studio
from workbench.storage.engine import studio_engine
from workbench.storage.inspection import Verdict
from workbench.storage.opening import open_studio
from workbench.storage.revisions import APPLICATION_ID, MIGRATIONS
from workbench.storage.schema import FULL_TEXT, Base
from workbench.storage.upgrading import script_config

OLD_FILES = Path(__file__).parents[1] / "old_files"
VERSIONS = MIGRATIONS.folder / "versions"
REVISIONS = sorted(file.stem for file in VERSIONS.glob("r*.py"))


def test_that_the_head_known_without_alembic_is_that_of_the_migrations():
    assert ScriptDirectory.from_config(script_config(MIGRATIONS)).get_current_head() == (
        MIGRATIONS.head
    )


def test_that_revisions_are_numbers_of_four_digits_in_their_order():
    script = ScriptDirectory.from_config(script_config(MIGRATIONS))
    numbers = [step.revision for step in script.walk_revisions()][::-1]
    assert numbers == [f"{place:04}" for place in range(1, len(numbers) + 1)]
    assert [name[1:5] for name in REVISIONS] == numbers


@pytest.mark.parametrize("name", REVISIONS)
def test_that_every_migration_says_what_it_does_in_one_sentence(name):
    source = (VERSIONS / f"{name}.py").read_text(encoding="utf-8")
    first = source.splitlines()[0]
    assert first.startswith('"""')
    assert first.endswith('."""')
    assert "def downgrade" not in source  # the backup is the way back


@pytest.mark.parametrize("name", REVISIONS)
def test_that_every_migration_has_a_test_of_its_name(name):
    assert f"def test_{name}(" in Path(__file__).read_text(encoding="utf-8")


def test_that_the_migrations_give_exactly_the_schema(studio_path):
    from alembic.autogenerate import compare_metadata

    def is_ours(name: str | None, kind: str, _parents: object) -> bool:
        return kind != "table" or not str(name).startswith(FULL_TEXT)

    engine = studio_engine(studio_path)
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection, opts={"compare_type": True, "include_name": is_ours}
        )
        assert compare_metadata(context, Base.metadata) == []
    engine.dispose()


def test_that_the_mark_of_a_studio_is_the_one_the_migrations_write(studio_path):
    with closing(sqlite3.connect(studio_path)) as connection:
        assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
    assert APPLICATION_ID.to_bytes(4, "big") == b"FWst"


@pytest.mark.parametrize("table", ["versions", "batches"])
@pytest.mark.parametrize("event", ["UPDATE", "DELETE"])
def test_that_a_record_is_guarded_by_a_trigger(studio_path, table, event):
    with closing(sqlite3.connect(studio_path)) as connection:
        found = connection.execute(
            "SELECT sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = ?", (table,)
        )
        assert any(f"BEFORE {event} ON {table}" in row[0] for row in found)


@pytest.mark.parametrize("file", sorted(OLD_FILES.glob("*.sqlite")), ids=lambda file: file.stem)
def test_that_every_old_file_opens_and_is_whole(file, tmp_path):
    path = Path(shutil.copy(file, tmp_path / "old.studio"))
    studio = open_studio(path)
    is_current = file.stem == MIGRATIONS.head
    assert studio.found.verdict is (Verdict.CURRENT if is_current else Verdict.OLDER)
    studio.close()
    assert check_studio(path).problems == ()


def test_that_there_is_an_old_file_of_every_revision():
    assert [file.stem for file in sorted(OLD_FILES.glob("*.sqlite"))] == [
        name[1:5] for name in REVISIONS
    ]


def test_r0001_studio(tmp_path):
    path = Path(shutil.copy(OLD_FILES / "0001.sqlite", tmp_path / "old.studio"))
    studio = open_studio(path)
    entries = {entry.key: entry for entry in studio.formulas.entries(archived=True)}
    assert sorted(entries) == ["gum-stock", "oat-quince-gel", "put-aside-balm"]
    assert entries["oat-quince-gel"].latest_version == 2
    assert entries["put-aside-balm"].archived
    draft, counter = studio.formulas.draft("oat-quince-gel")
    assert counter == 3
    assert [line.ingredient for line in draft.lines()] == ["water", "glycerin", "gum-stock"]
    assert [line.percent for line in draft.lines()] == [None, Decimal("5.00"), Decimal("35.00")]
    first = studio.versions.get("oat-quince-gel", 1)
    assert first.reason == "First bench trial"
    assert first.formula.line(2).percent == Decimal("4.00")
    assert first.shelf.knows("gum-stock")
    assert studio.settings.load().name == "Pebblewick"
    assert [item.readability for item in studio.settings.balances()] == [Decimal("0.01")]
    assert studio.settings.prices()["glycerin"].per_kg == Decimal("7.20")
    assert [batch.number for batch in studio.batches.of_formula("oat-quince-gel")] == ["OQ-2611-01"]
    assert studio.search("gum st")[0].key == "gum-stock"
    studio.close()


def test_r0002_shelf(tmp_path):
    path = Path(shutil.copy(OLD_FILES / "0001.sqlite", tmp_path / "old.studio"))
    studio = open_studio(path)
    supply = studio.supplies.get("glycerin")
    assert (supply.pack_g, supply.pack_price, supply.freight) == (
        Decimal(1000),
        Decimal("7.20"),
        Decimal(0),
    )
    assert supply.on_hand
    assert str(supply.price.per_kg) == "7.20"
    assert supply.price.currency == "EUR"
    assert set(studio.supplies.all()) == {"glycerin"}
    studio.close()
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("SELECT DISTINCT tags, notes FROM formulas").fetchall() == [
            ("[]", "")
        ]
        tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
        assert {"attachments", "own_rules"} <= tables
        assert "prices" not in tables


def test_that_a_studio_of_0002_keeps_its_shelf(tmp_path):
    path = Path(shutil.copy(OLD_FILES / "0002.sqlite", tmp_path / "old.studio"))
    with open_studio(path) as studio:
        supply = studio.supplies.get("phenoxyethanol")
        assert (supply.supplier, supply.order_code) == ("Quince Lane Supplies", "QL-31")
        assert supply.price.per_kg == Decimal(70)  # 6.40 and 0.60 freight for 100 g
        assert supply.allergens == ()
        assert studio.ingredients.entry("oat-milk")[0].is_own
        (note,) = studio.attachments.of("oat-milk")
        assert studio.attachments.content(note.id) == b"Pressed on Tuesday.\n"
    with closing(sqlite3.connect(path)) as connection:
        query = "SELECT tags, notes FROM formulas WHERE key = 'oat-quince-gel'"
        assert connection.execute(query).fetchone() == ('["oat","gel"]', "Softer with less gum.")
        assert connection.execute("SELECT text FROM own_rules").fetchall() == [
            ("An invented rule.",)
        ]
