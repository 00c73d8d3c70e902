"""Speed as one maker feels it; run with `python -m tests.benchmark`."""
