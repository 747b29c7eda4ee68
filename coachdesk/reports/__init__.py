"""Paper: frozen packet content in, PDF out."""
