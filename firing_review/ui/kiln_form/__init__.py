"""What is known about the kiln, as a form beside the log."""
