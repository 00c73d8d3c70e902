"""Formulation Workbench: draft formulas in percent, see what is wrong, print the worksheet."""
