"""Use cases: one action of the coach is one function and one transaction."""
