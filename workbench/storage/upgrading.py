"""Running the migrations, the only place that needs alembic."""

from __future__ import annotations

from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from workbench.storage.engine import for_writing, studio_engine
from workbench.storage.failures import told
from workbench.storage.revisions import Migrations
from workbench.storage.sentences import refusal

if TYPE_CHECKING:
    from alembic.config import Config
    from sqlalchemy import Connection

# While alembic runs, the names a migration imports from it stand for that one run.
_ONE_AT_A_TIME = Lock()


def script_config(migrations: Migrations) -> Config:
    """Return alembic's configuration for a folder of migrations."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(migrations.folder).replace("%", "%%"))
    return config


def migrate(connection: Connection, migrations: Migrations) -> None:
    """Run every step that is still to do, inside the transaction of a connection."""
    from alembic import command

    config = script_config(migrations)
    config.attributes["connection"] = connection
    with _ONE_AT_A_TIME:
        command.upgrade(config, migrations.head)


def upgrade_file(path: Path, migrations: Migrations) -> None:
    """Bring a studio to the last step in one transaction; on any failure it stays as it was."""
    # A table that others refer to is rebuilt by dropping it: with foreign keys on, that would
    # take the rows of the others along, so they are checked as a whole before the end instead.
    engine = studio_engine(path, foreign_keys=False)
    try:
        with told(path), for_writing(engine).connect() as connection, connection.begin():
            migrate(connection, migrations)
            orphans = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
            if orphans:
                raise refusal("upgrade-orphans", detail=str(orphans[:5]), file=path.name)
    finally:
        engine.dispose()
