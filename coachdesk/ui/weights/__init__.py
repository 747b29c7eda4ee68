"""Weights of several athletes at once: the team's morning, and files from other programs."""
