"""A small table to type or paste into: cells are text until every one of them makes sense."""
