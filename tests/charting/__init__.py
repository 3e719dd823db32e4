"""Charting at the court: entry, questions, rating, the growing file."""
