"""Blocks: training that leads to the day."""
