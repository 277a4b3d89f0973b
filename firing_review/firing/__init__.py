"""The nouns of the trade as frozen values; this package imports nothing of the project."""
