"""Start-up, wiring and the command line."""
