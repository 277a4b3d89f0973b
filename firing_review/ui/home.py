"""The person's own folder, where file dialogs begin."""

from pathlib import Path


def home_folder() -> Path:
    """Return the person's home; where there is none, the folder the program was started in."""
    try:
        return Path.home()
    except RuntimeError:
        return Path.cwd()
