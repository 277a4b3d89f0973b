"""Every key of the program on one page."""
