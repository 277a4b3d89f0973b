"""What each segment was asked, and what came of it."""
