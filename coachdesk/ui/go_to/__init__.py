"""One box that reaches every screen, athlete, meet and action by typing."""
