"""Bar: weights to discs and back."""
