"""A review as a page: what stands on it, its pictures, and the page as HTML and text."""
