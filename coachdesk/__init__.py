"""coachdesk: a desk for powerlifting coaches."""

__version__ = "0.1.0"
