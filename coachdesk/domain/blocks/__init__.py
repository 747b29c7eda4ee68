"""Training blocks: the notation of planned sets, what a block asks of its records, its numbers."""
