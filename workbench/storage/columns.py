"""Column types: decimals and instants as text, so that nothing is lost in a float."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import Text
from sqlalchemy.types import TypeDecorator

if TYPE_CHECKING:
    from sqlalchemy.engine import Dialect


class DecimalText(TypeDecorator[Decimal]):
    """Store a decimal as the text it was made from."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Return the text to store."""
        return None if value is None else str(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Decimal | None:  # noqa: ARG002
        """Return the decimal that was stored."""
        return None if value is None else Decimal(value)


class InstantText(TypeDecorator[datetime]):
    """Store an instant in UTC as ISO text, which sorts as time does."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Return the text to store; an instant without a zone is a mistake."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("an instant needs a time zone")
        return value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Return the instant that was stored, in UTC."""
        return None if value is None else datetime.fromisoformat(value)
