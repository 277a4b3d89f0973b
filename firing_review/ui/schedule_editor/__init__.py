"""The schedule that was meant, as a small table beside the log."""
