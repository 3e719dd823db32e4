"""Pages that stand alone: style and pictures inside, nothing fetched."""
