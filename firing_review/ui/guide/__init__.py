"""The guide: one demo firing in five steps, told in a strip that blocks nothing."""
