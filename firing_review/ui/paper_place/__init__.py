"""The place "Paper": a page to print or hand on, seen before it is."""
