"""The few choices a person makes once."""
