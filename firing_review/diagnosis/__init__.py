"""From findings to causes and to the next check."""
