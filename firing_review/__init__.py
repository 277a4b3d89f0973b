"""Firing Review: what happened in an electric kiln firing that is over, and what to do next."""

__version__ = "0.1.0"
