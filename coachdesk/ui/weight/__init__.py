"""The weight board, for every screen that shows it."""
