"""The rulebooks: read in words, copied, and edited as forms."""
