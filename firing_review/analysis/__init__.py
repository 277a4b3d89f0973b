"""What happened in this firing: bad samples, rates, alignment, detectors, shelves, elements."""
