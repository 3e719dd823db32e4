"""Charting balls at the court and rating them again: states and steps, without a terminal."""
