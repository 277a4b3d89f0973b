"""Pages on paper: laid out, as PDF, and to a printer."""
