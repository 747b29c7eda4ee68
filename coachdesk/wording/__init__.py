"""Texts by code and numbers by unit, the same for screen and paper."""
