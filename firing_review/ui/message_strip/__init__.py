"""A message in the window: what cannot be done, and what to do next."""
