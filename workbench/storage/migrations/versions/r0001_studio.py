"""Lay the tables of a studio."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

# Marks the file as a studio in its header ("FWst"), so that another program's file is told apart.
APPLICATION_ID = 0x46577374


def upgrade() -> None:
    op.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    _work()
    _shelf()
    _formulas()
    _search()
    for table in ("versions", "batches"):
        _append_only(table)


def _work() -> None:
    op.create_table(
        "studio",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.Text(), nullable=False),
        sa.Column("reference_set", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_studio"),
    )
    op.create_table(
        "settings",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_settings"),
    )
    op.create_table(
        "balances",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("readability", sa.Text(), nullable=False),
        sa.Column("capacity", sa.Text(), nullable=False),
        sa.Column("repeatability", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("name", name="pk_balances"),
    )


def _shelf() -> None:
    op.create_table(
        "prices",
        sa.Column("ingredient", sa.Text(), nullable=False),
        sa.Column("per_kg", sa.Text(), nullable=False),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("ingredient", name="pk_prices"),
    )
    op.create_table(
        "ingredients",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("facts", sa.Text(), nullable=False),
        sa.Column("is_own", sa.Boolean(), nullable=False),
        sa.Column("counter", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_ingredients"),
        sa.UniqueConstraint("key", name="uq_ingredients_key"),
    )


def _formulas() -> None:
    op.create_table(
        "formulas",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("product_type", sa.Text(), nullable=False),
        sa.Column("draft", sa.Text(), nullable=False),
        sa.Column("counter", sa.Integer(), nullable=False),
        sa.Column("edited_at", sa.Text(), nullable=False),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_formulas"),
        sa.UniqueConstraint("key", name="uq_formulas_key"),
    )
    op.create_table(
        "formula_uses",
        sa.Column("formula_id", sa.Integer(), nullable=False),
        sa.Column("ingredient", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["formula_id"],
            ["formulas.id"],
            name="fk_formula_uses_formula_id_formulas",
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("formula_id", "ingredient", name="pk_formula_uses"),
    )
    op.create_index("ix_formula_uses_ingredient", "formula_uses", ["ingredient"])
    op.create_table(
        "versions",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("formula_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("made_at", sa.Text(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("facts", sa.Text(), nullable=False),
        sa.Column("reference_set", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["formula_id"], ["formulas.id"], name="fk_versions_formula_id_formulas"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_versions"),
        sa.UniqueConstraint("formula_id", "number", name="uq_versions_formula_id_number"),
    )
    op.create_table(
        "batches",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("series", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("batch_mass_g", sa.Text(), nullable=False),
        sa.Column("made_at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["version_id"], ["versions.id"], name="fk_batches_version_id_versions"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_batches"),
        sa.UniqueConstraint("number", name="uq_batches_number"),
        sa.UniqueConstraint("series", "place", name="uq_batches_series_place"),
    )
    op.create_index("ix_batches_version_id", "batches", ["version_id"])


def _search() -> None:
    op.create_table(
        "search_entries",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("is_stock", sa.Boolean(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("inci", sa.Text(), nullable=False),
        sa.Column("folded_name", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_search_entries"),
        sa.UniqueConstraint("key", name="uq_search_entries_key"),
    )
    op.create_index("ix_search_entries_folded_name_key", "search_entries", ["folded_name", "key"])
    op.create_table(
        "search_tails",
        sa.Column("kind", sa.Integer(), nullable=False),
        sa.Column("tail", sa.Text(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"],
            ["search_entries.id"],
            name="fk_search_tails_entry_id_search_entries",
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("kind", "tail", "entry_id", name="pk_search_tails"),
        sqlite_with_rowid=False,
    )
    op.create_index("ix_search_tails_entry_id", "search_tails", ["entry_id"])
    # The prefixes are indexed because every keystroke asks for words that begin with the typed.
    op.execute("CREATE VIRTUAL TABLE search_text USING fts5(words, prefix='1 2 3')")


def _append_only(table: str) -> None:
    for event in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {table}_refuse_{event.lower()} BEFORE {event} ON {table}"
            f" BEGIN SELECT RAISE(ABORT, '{table} are append-only'); END"
        )
