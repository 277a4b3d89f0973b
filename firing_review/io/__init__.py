"""Files to nouns and back: logs, schedules, cones, sheets, tables of resources."""
