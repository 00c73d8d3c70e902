"""How a studio came to its tables, one step after the other."""
