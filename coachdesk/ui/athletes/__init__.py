"""What several screens share about athletes."""
