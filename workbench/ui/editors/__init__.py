"""Editors that open in a cell."""
