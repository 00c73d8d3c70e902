"""The studio page: who makes, and how it is weighed, counted and printed."""
