"""Weights of several athletes at once: the board, the team's morning, files from elsewhere."""
