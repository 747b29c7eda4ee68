"""Meets: the list, and inside a meet its sessions, entries, attempts and packets."""
