"""The place "Next firing": three sliders, every shelf answering as they move."""
