"""How a log was read, shown and corrected before or after it is opened."""
