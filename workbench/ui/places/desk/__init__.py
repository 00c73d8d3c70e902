"""The Desk: draft formulas, see what is wrong."""
