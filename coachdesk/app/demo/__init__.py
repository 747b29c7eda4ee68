"""The invented club: its file read, its records drawn, and all of it seeded through use cases."""
