"""The Roster: athletes, what they weigh, what they lift, and what they need on a platform."""
