"""The place "Shelves": the chamber from the side, with its cones at their true bend."""
