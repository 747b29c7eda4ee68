"""Qt models as thin adapters of frozen rows."""
