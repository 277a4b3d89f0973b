"""What is being done beside the window."""
