"""The one question that comes before all advice."""
