"""The first screen: what needs the coach today."""
