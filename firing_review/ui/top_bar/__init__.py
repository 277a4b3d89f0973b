"""The slim bar at the top: what is open, and how it is shown."""
