"""What the coach prefers, the data file, and its backups."""
