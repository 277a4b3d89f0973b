"""The next firing."""
