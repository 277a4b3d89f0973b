"""The whole flow, the immutable review, edits and undo."""
