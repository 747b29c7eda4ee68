"""Compare: athletes side by side."""
