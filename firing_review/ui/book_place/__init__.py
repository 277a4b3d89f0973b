"""The place "Kiln book": the firings of a kiln, what drifts, what was changed."""
