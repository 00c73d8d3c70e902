"""Give the shelf supplies and attached files, formulas tags and notes, and the maker own rules."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

# A price was of a kilogram, freight included: that is a pack of 1000 g that came free of freight.
# What has a price was bought, so it is taken to be there.
MOVE_PRICES = """
    INSERT INTO supplies (ingredient, on_hand, supplier, order_code, pack_g, pack_price,
                          freight, currency, allergens, counter)
    SELECT ingredient, 1, '', '', '1000', per_kg, '0', currency, NULL, 1 FROM prices
"""


def upgrade() -> None:
    op.add_column("formulas", sa.Column("tags", sa.Text(), nullable=False, server_default="[]"))
    op.add_column("formulas", sa.Column("notes", sa.Text(), nullable=False, server_default=""))
    _supplies()
    _attachments()
    op.create_table(
        "own_rules",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("counter", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_own_rules"),
    )


def _supplies() -> None:
    op.create_table(
        "supplies",
        sa.Column("ingredient", sa.Text(), nullable=False),
        sa.Column("on_hand", sa.Boolean(), nullable=False),
        sa.Column("supplier", sa.Text(), nullable=False),
        sa.Column("order_code", sa.Text(), nullable=False),
        sa.Column("pack_g", sa.Text(), nullable=True),
        sa.Column("pack_price", sa.Text(), nullable=True),
        sa.Column("freight", sa.Text(), nullable=True),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.Column("allergens", sa.Text(), nullable=True),
        sa.Column("counter", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("ingredient", name="pk_supplies"),
    )
    op.execute(MOVE_PRICES)
    op.drop_table("prices")


def _attachments() -> None:
    op.create_table(
        "attachments",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("ingredient", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("file_name", sa.Text(), nullable=False),
        sa.Column("media_type", sa.Text(), nullable=False),
        sa.Column("added_at", sa.Text(), nullable=False),
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_attachments"),
    )
    op.create_index("ix_attachments_ingredient", "attachments", ["ingredient"])
