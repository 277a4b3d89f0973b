"""The kiln book: firings kept in one file, and their history."""
