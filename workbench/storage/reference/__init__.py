"""The shipped reference tables, read into frozen values."""
