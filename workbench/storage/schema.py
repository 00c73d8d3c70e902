"""The tables of a studio."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from sqlalchemy import ForeignKey, Index, MetaData, Text, UniqueConstraint
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from workbench.storage.columns import DecimalText, InstantText

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
# Full text lives in a virtual table, which has no Row class: SQLite keeps it in tables of its own.
FULL_TEXT = "search_text"


class Base(DeclarativeBase):
    """Carry the metadata every table belongs to."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map = {str: Text, Decimal: DecimalText, datetime: InstantText}  # noqa: RUF012


class StudioRow(Base):
    """Hold the one row that says what this studio was filled with."""

    __tablename__ = "studio"

    id: Mapped[int] = mapped_column(primary_key=True)
    made_at: Mapped[datetime]
    reference_set: Mapped[str]


class SettingRow(Base):
    """Hold one setting of the work, its value as JSON."""

    __tablename__ = "settings"

    key: Mapped[str] = mapped_column(primary_key=True)
    value: Mapped[str]


class BalanceRow(Base):
    """Hold one balance; masses in grams."""

    __tablename__ = "balances"

    name: Mapped[str] = mapped_column(primary_key=True)
    place: Mapped[int]
    readability: Mapped[Decimal]
    capacity: Mapped[Decimal]
    repeatability: Mapped[Decimal | None]


class SupplyRow(Base):
    """Hold how an ingredient is bought: whether it is there, from whom, and what a pack costs.

    `allergens` is what a certificate lists, as JSON; None where none was typed.
    """

    __tablename__ = "supplies"

    ingredient: Mapped[str] = mapped_column(primary_key=True)
    on_hand: Mapped[bool]
    supplier: Mapped[str]
    order_code: Mapped[str]
    pack_g: Mapped[Decimal | None]
    pack_price: Mapped[Decimal | None]
    freight: Mapped[Decimal | None]
    currency: Mapped[str]
    allergens: Mapped[str | None]
    counter: Mapped[int]


class AttachmentRow(Base):
    """Hold one file that belongs to an ingredient: a data sheet, a certificate."""

    __tablename__ = "attachments"

    id: Mapped[int] = mapped_column(primary_key=True)
    ingredient: Mapped[str] = mapped_column(index=True)
    kind: Mapped[str]
    file_name: Mapped[str]
    media_type: Mapped[str]
    added_at: Mapped[datetime]
    digest: Mapped[str]
    content: Mapped[bytes]


class OwnRuleRow(Base):
    """Hold one rule of the maker's own, as it was written."""

    __tablename__ = "own_rules"

    key: Mapped[str] = mapped_column(primary_key=True)
    text: Mapped[str]
    counter: Mapped[int]


class IngredientRow(Base):
    """Hold one ingredient: its facts as JSON, the shipped ones and the maker's own."""

    __tablename__ = "ingredients"

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(unique=True)
    name: Mapped[str]
    facts: Mapped[str]
    is_own: Mapped[bool]
    counter: Mapped[int]


class FormulaRow(Base):
    """Hold one formula: its draft as a document, and the counter of its writes."""

    __tablename__ = "formulas"

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(unique=True)
    name: Mapped[str]
    product_type: Mapped[str]
    draft: Mapped[str]
    counter: Mapped[int]
    edited_at: Mapped[datetime]
    archived: Mapped[bool]
    tags: Mapped[str] = mapped_column(server_default="[]")
    notes: Mapped[str] = mapped_column(server_default="")


class FormulaUseRow(Base):
    """Hold that a draft uses an ingredient or stock."""

    __tablename__ = "formula_uses"
    __table_args__ = (Index(None, "ingredient"),)

    formula_id: Mapped[int] = mapped_column(
        ForeignKey("formulas.id", ondelete="CASCADE"), primary_key=True
    )
    ingredient: Mapped[str] = mapped_column(primary_key=True)


class VersionRow(Base):
    """Hold one version for ever: its document and the facts it stood on."""

    __tablename__ = "versions"
    __table_args__ = (UniqueConstraint("formula_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    formula_id: Mapped[int] = mapped_column(ForeignKey("formulas.id"))
    number: Mapped[int]
    reason: Mapped[str]
    made_at: Mapped[datetime]
    document: Mapped[str]
    facts: Mapped[str]
    reference_set: Mapped[str]


class BatchRow(Base):
    """Hold one batch number for ever: the version it makes, how much, and when."""

    __tablename__ = "batches"
    __table_args__ = (UniqueConstraint("series", "place"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    number: Mapped[str] = mapped_column(unique=True)
    series: Mapped[str]
    place: Mapped[int]
    version_id: Mapped[int] = mapped_column(ForeignKey("versions.id"), index=True)
    batch_mass_g: Mapped[Decimal]
    made_at: Mapped[datetime]


class SearchEntryRow(Base):
    """Hold what search can find: an ingredient or a stock, its name folded and indexed."""

    __tablename__ = "search_entries"
    __table_args__ = (Index(None, "folded_name", "key"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(unique=True)
    is_stock: Mapped[bool]
    name: Mapped[str]
    inci: Mapped[str]
    folded_name: Mapped[str]


class SearchTailRow(Base):
    """Hold a folded text from one of its words to the end, so that any word can be typed first."""

    __tablename__ = "search_tails"
    __table_args__ = (Index(None, "entry_id"), {"sqlite_with_rowid": False})

    kind: Mapped[int] = mapped_column(primary_key=True)
    tail: Mapped[str] = mapped_column(primary_key=True)
    entry_id: Mapped[int] = mapped_column(
        ForeignKey("search_entries.id", ondelete="CASCADE"), primary_key=True
    )
