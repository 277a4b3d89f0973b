"""The window with a firing open: bar, verdict, places."""
