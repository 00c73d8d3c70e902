"""Models between immutable rows and Qt's views."""
