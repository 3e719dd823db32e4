"""Tests of what is shown on a terminal."""
