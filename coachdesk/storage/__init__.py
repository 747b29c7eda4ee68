"""The database: tables, journal, migration, backup; hands out frozen domain records."""
