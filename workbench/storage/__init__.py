"""The studio file: rows in and out as values, migrations, backups, and the reference tables."""
