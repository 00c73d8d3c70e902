"""The formula as a frozen value, and everything that follows from it alone."""
