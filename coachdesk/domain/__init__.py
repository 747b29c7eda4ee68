"""Plain values and calculators: standard library and numpy only."""
