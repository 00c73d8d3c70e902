"""Batches, weighings and readings as values: what is made, and what was made."""
